/** Units as people write them, under the symbol that is used here. Spellings are lower case without a closing dot. */
const spellings: Readonly<Record<string, readonly string[]>> = {
  mm: ['mm', 'millimeter', 'millimeters', 'millimetre', 'millimetres'],
  cm: ['cm', 'cms', 'centimeter', 'centimeters', 'centimetre', 'centimetres', 'zentimeter'],
  m: ['m', 'meter', 'meters', 'metre', 'metres'],
  km: ['km', 'kilometer', 'kilometers', 'kilometre', 'kilometres'],
  in: ['in', 'ins', 'inch', 'inches', 'zoll', 'pouce', 'pouces', '"', '″', '”', "''"],
  ft: ['ft', 'foot', 'feet', "'", '′'],
  yd: ['yd', 'yard', 'yards'],
  'm²': ['m²', 'm2', 'sqm', 'qm'],
  'ft²': ['ft²', 'ft2', 'sqft', 'sq ft'],
  mg: ['mg', 'milligram', 'milligrams'],
  g: ['g', 'gr', 'gram', 'grams', 'gramm', 'grammes'],
  kg: ['kg', 'kilogram', 'kilograms', 'kilogramm'],
  oz: ['oz', 'ounce', 'ounces'],
  lb: ['lb', 'lbs', 'pound', 'pounds'],
  mL: ['ml', 'milliliter', 'milliliters', 'millilitre', 'millilitres'],
  L: ['l', 'liter', 'liters', 'litre', 'litres'],
  '°C': ['°c', 'ºc', 'degc', 'deg c', '° c', '℃', 'celsius'],
  '°F': ['°f', 'ºf', 'degf', 'deg f', '° f', '℉', 'fahrenheit'],
  '°': ['°', 'º', 'deg', 'degree', 'degrees', 'grad'],
  '%': ['%', 'percent', 'per cent', 'pct', 'prozent'],
  s: ['s', 'sec', 'second', 'seconds'],
  min: ['min', 'minute', 'minutes'],
  h: ['h', 'hr', 'hrs', 'hour', 'hours', 'stunden'],
  days: ['d', 'day', 'days', 'tag', 'tage', 'jour', 'jours'],
  weeks: ['wk', 'week', 'weeks', 'woche', 'wochen', 'semaine', 'semaines'],
  months: ['month', 'months', 'monat', 'monate', 'mois'],
  years: ['yr', 'yrs', 'year', 'years', 'jahr', 'jahre', 'ans'],
};

const symbols = new Map<string, string>();
for (const [symbol, written] of Object.entries(spellings))
  for (const spelling of written) symbols.set(spelling, symbol);

/** The symbol of a unit as written (`inches` gives `in`, `°c` gives `°C`); null where the text is no unit. */
export function unitNamed(text: string): string | null {
  const plain = text.trim().toLowerCase();
  return symbols.get(plain) ?? symbols.get(plain.replace(/\.$/, '')) ?? null;
}
