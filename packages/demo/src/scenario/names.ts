/** Cultivar names of the demo. All are invented for it; none is known to us as a plant that is sold. */
export const standardNames = ['Ferry Lantern', 'Tin Drummer', 'Bramble Smoke'] as const;

export const oldCultivarNames = [
  'Oat Loft',
  'Kettle Ferry',
  'Saddler’s Blue',
  'Hob Candle',
  'Lamp Room',
] as const;

/** Nicknames that the breeders give to selected seedlings, in the order in which they are given out. */
export const selectionNames = [
  'Slate Heron',
  'Weir Song',
  'Cobbled Yard',
  'Osier Smoke',
  'Tallow Street',
  'Quarry Dusk',
  'Mill Race Blue',
  'Pewter Gate',
  'Straw Ferry',
  'Cinder Path',
  'Goose Fair',
  'Plum Ladder',
  'Long Meadow Bell',
  'Ash Bucket',
  'Copper Stile',
  'Winter Loft',
  'Salt Wagon',
  'Bracken Lamp',
  'Harrow Moon',
  'Wren Chimney',
] as const;
