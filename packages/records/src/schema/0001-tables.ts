/**
 * The tables of the first schema, as shipped and never edited again.
 * Columns: `name type`, types text, integer, real; `!` not null; `name -> table` refers to that table's id.
 */
export interface TableAsShipped {
  readonly nature: 'record' | 'fact';
  readonly key?: string;
  readonly columns: string;
}

export const firstTables: Readonly<Record<string, TableAsShipped>> = {
  people: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text, role text, left_on text, remark text`,
  },
  devices: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, person -> people, let_in_on text, shut_out_on text, remark text`,
  },
  taxa: {
    nature: 'record',
    key: 'name',
    columns: `
      name text!, authorship text, rank text, common_name text, profile text, chromosomes integer,
      protected integer, protection text, protection_as_of text, remark text`,
  },
  localities: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text, verbatim text, provenance text, country text, region text, latitude real,
      longitude real, uncertainty_m real, altitude_m real, habitat text, visited_on text, found text,
      exact_place_kept_secret integer, remark text`,
  },
  places: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text, sort text!, within -> places, east_m real, north_m real, length_m real,
      width_m real, turned real, walk integer, latitude real, longitude real, altitude_m real,
      remark text`,
  },
  place_conditions: {
    nature: 'fact',
    columns: `
      place -> places!, on text!, light text, moisture text, soil text, ph real, remark text`,
  },
  traits: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text!, sort text!, unit text, least real, most real, classes text,
      bbch integer, wanted text, how text, remark text`,
  },
  briefs: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text!, aim text, by -> people, closed_on text, remark text`,
  },
  brief_limits: {
    nature: 'record',
    columns: `
      brief -> briefs!, trait -> traits!, must integer!, weight real, at_least real, at_most real,
      classes text, colour_l real, colour_a real, colour_b real, colour_within real,
      from_week integer, to_week integer`,
  },
  accessions: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, taxon -> taxa, locality -> localities, received_on text, form text, origin text,
      donor text, donor_number text, collector text, collecting_number text, collected_on text,
      mothers integer, quantity text, permit text, remark text`,
  },
  genets: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text, taxon -> taxa, accession -> accessions, cross -> crosses,
      seed_lot -> seed_lots, sowing -> sowings, clone_of -> genets, founder_group text, origin text,
      raised_in integer, standard integer, chromosomes integer, remark text`,
  },
  crosses: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, sort text, made_on text, brief -> briefs, tag text, remark text`,
  },
  seed_lots: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, cross -> crosses, seed_parent -> genets, accession -> accessions,
      locality -> localities, harvested_on text, seeds integer, weight_g real,
      thousand_seed_weight_g real, stored text, moisture real, temperature_c real,
      never_sow_last integer, remark text`,
  },
  sowings: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, seed_lot -> seed_lots!, on text!, seeds integer!, treatment text, place -> places,
      remark text`,
  },
  batches: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, genet -> genets!, stock_plant -> plants, on text!, sort text, stuck integer!,
      nodes integer, treatment text, concentration text, medium text, place -> places, closed_on text,
      for_whom text, remark text`,
  },
  plants: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, genet -> genets!, place -> places, walk integer, east_m real, north_m real,
      planted_on text, age_at_planting real, size_at_planting text, raised_as text, batch -> batches,
      gone_on text, gone_why text, remark text`,
  },
  photos: {
    nature: 'record',
    key: 'hash',
    columns: `
      hash text!, plant -> plants, genet -> genets, place -> places, trait -> traits, taken_on text,
      by -> people, media_type text, bytes integer, width_px integer, height_px integer, caption text`,
  },
  determinations: {
    nature: 'fact',
    columns: `
      accession -> accessions, genet -> genets, taxon -> taxa!, on text!, by text, remark text`,
  },
  terms: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, accession -> accessions, genet -> genets, taxon -> taxa, from_whom text!,
      basis text, asks text!, descends integer, from_date text, until_date text, document text,
      remark text`,
  },
  moves: {
    nature: 'fact',
    columns: `
      plant -> plants!, on text!, place -> places!, walk integer, east_m real, north_m real,
      lifted text, watered_days integer, by -> people, remark text`,
  },
  identities: {
    nature: 'fact',
    columns: `
      plant -> plants!, genet -> genets!, on text!, earlier_notes text!, by -> people, remark text`,
  },
  notes: {
    nature: 'fact',
    columns: `
      plant -> plants, genet -> genets, cross -> crosses, seed_lot -> seed_lots, batch -> batches,
      place -> places, trait -> traits!, on text!, at text, state text, value_number real,
      value_date text, value_text text, value_l real, value_a real, value_b real,
      taken_by_way_of text, grown_at -> places, photo -> photos, by -> people, remark text`,
  },
  decisions: {
    nature: 'fact',
    columns: `
      plant -> plants, genet -> genets, cross -> crosses, seed_lot -> seed_lots, on text!,
      decision text!, reason text, proposed integer, by -> people`,
  },
  pollen_lots: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, genet -> genets!, plant -> plants, collected_on text!, stored text,
      temperature_c real, used_up_on text, remark text`,
  },
  pollen_tests: {
    nature: 'fact',
    columns: `
      pollen_lot -> pollen_lots!, on text!, counted integer!, germinated integer!, medium text,
      by -> people`,
  },
  pollinations: {
    nature: 'fact',
    columns: `
      cross -> crosses!, on text!, at text, seed_plant -> plants, pollen_plant -> plants,
      pollen_lot -> pollen_lots, florets integer, emasculated integer, bagged integer,
      bag_off_on text, tag text, weather text, by -> people, remark text`,
  },
  harvests: {
    nature: 'fact',
    columns: `
      cross -> crosses, plant -> plants, accession -> accessions, on text!, pods_set integer,
      pods_gathered integer, seeds integer, spoiled integer, weight_g real, seed_lot -> seed_lots,
      by -> people, remark text`,
  },
  seed_movements: {
    nature: 'fact',
    columns: `
      seed_lot -> seed_lots!, on text!, seeds integer!, why text, to_whom text, by -> people,
      remark text`,
  },
  germination_tests: {
    nature: 'fact',
    columns: `
      seed_lot -> seed_lots!, started_on text!, treatment text, replicate integer, seeds integer!,
      day integer!, germinated integer!, temperature_c real, light text, by -> people, remark text`,
  },
  sowing_counts: {
    nature: 'fact',
    columns: `
      sowing -> sowings!, on text!, stage text!, count integer!, cause_of_loss text, by -> people,
      remark text`,
  },
  batch_counts: {
    nature: 'fact',
    columns: `
      batch -> batches!, on text!, step text!, count integer!, bud_below integer, depth_cm real,
      cause_of_loss text, by -> people, remark text`,
  },
  trials: {
    nature: 'record',
    key: 'code',
    columns: `
      code text!, name text, place -> places, layout text, planted_on text, ended_on text,
      seed integer, remark text`,
  },
  trial_entries: {
    nature: 'record',
    columns: `
      trial -> trials!, genet -> genets!, plant -> plants, replicate integer, block integer,
      row integer, column integer, standard integer`,
  },
  disclosures: {
    nature: 'fact',
    columns: `
      genet -> genets!, on text!, how text!, to_whom text, where text, under_terms text, by -> people,
      remark text`,
  },
  weather: {
    nature: 'fact',
    columns: `
      site -> places!, on text!, tmin_c real, tmax_c real, rain_mm real, from_where text, remark text`,
  },
};
