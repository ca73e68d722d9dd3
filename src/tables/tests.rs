//! The tables as a whole.

use super::{FILES, GivenBy, Tables};
use crate::source::Seen;
use crate::units::{Length, Pressure};

#[test]
fn every_builtin_row_reads() {
    let mut tables = Tables::default();
    for (name, text) in FILES {
        let faults = tables.add_rows(text, &GivenBy::Program(name));
        assert!(faults.is_empty(), "{name}: {faults:#?}");
    }
    assert_eq!(&tables, Tables::builtin());
}

#[test]
fn every_row_has_a_source_and_a_plain_name() {
    let mut count = 0;
    for (kind, name, origin) in Tables::builtin().origins() {
        assert!(origin.source.len() > 5, "{kind} {name}: source");
        assert!(!origin.is_readers(), "{kind} {name}");
        let plain = |c: char| c.is_ascii_alphanumeric() || "-./#".contains(c);
        assert!(name.chars().all(plain), "{kind} {name}: letters");
        count += 1;
    }
    assert!(count > 200, "{count}");
}

#[test]
fn names_stand_in_order_and_once() {
    let tables = Tables::builtin();
    let mut last = None;
    for (kind, name, _) in tables.origins() {
        if let Some((before_kind, before)) = last
            && before_kind == kind
        {
            assert_eq!(
                super::natural::compare(before, name),
                std::cmp::Ordering::Less,
                "{kind} {before} {name}"
            );
        }
        last = Some((kind, name));
    }
}

#[test]
fn rows_name_rows_that_exist() {
    let tables = Tables::builtin();
    for section in &tables.sections {
        assert!(tables.material(&section.material).is_ok(), "{}", section.name);
    }
    for nut in &tables.rivet_nuts {
        assert!(tables.thread(&nut.thread).is_ok(), "{}", nut.name);
        assert!(tables.material(&nut.material).is_ok(), "{}", nut.name);
    }
    for limit in &tables.bend_limits {
        for material in &limit.materials {
            assert!(tables.material(material).is_ok(), "{} {material}", limit.name);
        }
    }
    for cleaner in &tables.cleaners {
        for material in &cleaner.unfit_for {
            assert!(tables.material(material).is_ok(), "{} {material}", cleaner.name);
        }
    }
    for primer in &tables.primers {
        for over in &primer.goes_under {
            let known = tables.adhesive(over).is_ok()
                || tables.tape(over).is_ok()
                || tables.threadlocker(over).is_ok();
            assert!(known, "{} {over}", primer.name);
        }
    }
}

#[test]
fn a_readers_row_takes_the_place_of_a_builtin_one() {
    let mut tables = Tables::builtin().clone();
    let own = "[[bolt-grade]]\nname = \"A2-70\"\nwords = \"mine\"\nmetal = \"stainless\"\n\
               ultimate = \"720 MPa\"\nyield = \"460 MPa\"\nproof-stress = \"460 MPa\"\n";
    let faults = tables.add_toml(own, "mine.toml");
    assert!(faults.is_empty(), "{faults:#?}");
    let row = tables.bolt_grade("a2-70").expect("just added");
    assert_eq!(row.proof, Pressure::mpa(460.0));
    assert!(row.origin.is_readers());
    assert_eq!(row.origin.seen, Seen::DataSheet);
    assert_eq!(tables.bolt_grades.len(), Tables::builtin().bolt_grades.len());
}

#[test]
fn a_readers_faults_are_all_told_and_the_row_left_out() {
    let mut tables = Tables::builtin().clone();
    let own = "[[section]]\nname = \"mine\"\nshape = \"flat\"\na = 40\nt = \"4 kg\"\n\
               materal = \"steel-s235\"\n[[bolt-grade]]\nname = \"9.9\"\nwords = \"x\"\n\
               metal = \"steel\"\nultimate = 900\nyield = -1\nproof-stress = \"x\"\n\
               [[sections]]\n";
    let faults = tables.add_toml(own, "mine.toml");
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    for part in ["`t`: ", "`material` is missing", "`materal` is not a key", "needs its unit"] {
        assert!(told.iter().any(|fault| fault.contains(part)), "{part}: {told:#?}");
    }
    assert!(told.iter().any(|fault| fault.contains("`sections` is not a kind")), "{told:#?}");
    assert!(tables.section("mine").is_err() && tables.bolt_grade("9.9").is_err());
    for fault in &faults {
        assert!(own.get(fault.span.clone()).is_some(), "{fault}");
    }
}

#[test]
fn thin_walls_are_stronger_where_the_standard_says_so() {
    let t66 = Tables::builtin().material("aluminium-6060-t66").expect("builtin");
    assert_eq!(t66.strength_at(Length::mm(3.0)).proof, Pressure::mpa(160.0));
    assert_eq!(t66.strength_at(Length::mm(4.0)).proof, Pressure::mpa(150.0));
}
