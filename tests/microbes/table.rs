//! The table itself: every row reads, makes sense, and says where it comes from.

use dwell::safety::microbes::{Sort, organisms};
use dwell::tables::microbes::Microbes;
use dwell::tables::{FoodState, Species};

/// Widest limits of growth over strains: ICMSF 1996, Microorganisms in Foods 5, and the FDA Bad Bug Book, growth factors
/// appendix, 1992; the cardinal model reaches somewhat beyond.
const LIMITS_C: [(&str, f64, f64); 5] = [
    ("Salmonella", 5.2, 47.0),
    ("Listeria monocytogenes", -0.4, 45.0),
    ("Clostridium perfringens", 10.0, 52.0),
    ("Bacillus cereus", 4.0, 55.0),
    ("Staphylococcus aureus", 7.0, 48.0),
];

#[test]
fn every_row_makes_sense_and_has_its_source() {
    let table = Microbes::built_in();
    assert_eq!(table.organisms.len(), LIMITS_C.len());
    let said = |source: &str, status: &str| {
        assert!(source.len() > 10, "{source}");
        assert!(["verified", "computed", "memory", "practice"].contains(&status), "{status}");
    };
    said(&table.credit.source, &table.credit.status);
    said(&table.ceiling.source, &table.ceiling.status);
    for organism in &table.organisms {
        let name = &organism.name;
        assert!(!organism.applies.is_empty(), "{name}");
        for set in &organism.lethality {
            said(&set.source, &set.status);
            assert!(set.lines.iter().all(|line| line.d_ref_min > 0.0 && line.z_c > 0.0), "{name}");
            assert!(set.lines.first().is_some_and(|line| line.from_c.is_none()), "{name}");
            let starts: Vec<f64> =
                set.lines.iter().skip(1).map(|line| line.from_c.expect("a start")).collect();
            assert!(starts.is_sorted(), "{name}");
            // Where one line hands over to the next they agree.
            for (pair, at_c) in set.lines.windows(2).zip(starts) {
                let d = |line: &dwell::tables::microbes::DeathLine| {
                    line.d_ref_min * 10_f64.powf((line.t_ref_c - at_c) / line.z_c)
                };
                assert!((d(&pair[0]) / d(&pair[1]) - 1.0).abs() < 0.001, "{name} at {at_c} °C");
            }
        }
        let growth = &organism.growth;
        said(&growth.source, &growth.status);
        assert!(growth.t_min_c < growth.t_opt_c && growth.t_opt_c < growth.t_max_c, "{name}");
        assert!(growth.q0.is_none_or(|q0| q0 > 0.0), "{name}");
        let (_, least, most) = LIMITS_C.iter().find(|(other, ..)| other == name).expect("limits");
        assert!((growth.t_min_c - least).abs() <= 1.0, "{name}: {least}");
        assert!((growth.t_max_c - most).abs() <= 5.0, "{name}: {most}");
    }
}

fn names(species: Species, state: FoodState) -> Vec<&'static str> {
    organisms(&[Sort { species, state }]).map(|organism| organism.name.as_str()).collect()
}

#[test]
fn each_food_has_its_organisms() {
    let beef = names(Species::Beef, FoodState::Intact);
    assert!(beef.contains(&"Clostridium perfringens") && beef.contains(&"Salmonella"), "{beef:?}");
    assert!(!beef.contains(&"Bacillus cereus"), "a whole cut: {beef:?}");
    let rice = names(Species::Grain, FoodState::Cooked);
    assert!(rice.contains(&"Bacillus cereus") && !rice.contains(&"Clostridium perfringens"), "{rice:?}");
    for dry in [FoodState::Baked, FoodState::Fat] {
        assert_eq!(names(Species::Grain, dry), [""; 0], "dry food is not judged");
    }
    let both = [(Species::Grain, FoodState::Cooked), (Species::Beef, FoodState::Intact)]
        .map(|(species, state)| Sort { species, state });
    assert_eq!(organisms(&both).count(), 5, "a dish of both has all of them");
}

/// Every food that a cook may name either is dry or has all that any food of its species has.
#[test]
fn every_moist_food_of_the_table_is_looked_at() {
    for kind in dwell::tables::Tables::built_in().foods.kinds() {
        let dry = matches!(kind.state, FoodState::Baked | FoodState::Fat | FoodState::Dough)
            || kind.species == Species::Other;
        assert_eq!(names(kind.species, kind.state).is_empty(), dry, "{}", kind.name);
        for organism in organisms(&[Sort { species: kind.species, state: kind.state }]) {
            let covered =
                |set: &dwell::tables::microbes::LethalitySet| set.of.includes(kind.species, kind.state);
            let sets = organism.lethality.iter().filter(|set| covered(set)).count();
            assert_eq!(
                sets,
                usize::from(!organism.lethality.is_empty()),
                "{} in {}",
                organism.name,
                kind.name
            );
        }
    }
}
