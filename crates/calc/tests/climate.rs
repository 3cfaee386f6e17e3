//! Weather stations against the heads of public weather files: `reference/make_climate_reference.py` writes
//! `reference/climate_reference.json` from packages of the registry, which it names.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::Mark;
use calc::climate::{STATIONS, station_of};

/// sinergym 3.5.1, accim-samples 0.8.2, ochre-nrel 0.9.2: heads of the weather files that they hold.
#[test]
fn stations_say_what_the_weather_files_say() {
    let kept: serde_json::Value =
        serde_json::from_str(include_str!("reference/climate_reference.json")).expect("the script writes JSON");
    let kept = kept["stations"].as_object().expect("stations");
    assert!(kept.len() >= 17, "{}", kept.len());
    for (word, expected) in kept {
        let station = station_of(word).unwrap_or_else(|| panic!("{word} is in the table"));
        let found = [station.latitude().to_degrees(), station.coldest() - 273.15, station.hottest() - 273.15];
        for (found, key) in found.into_iter().zip(["latitude", "coldest", "hottest"]) {
            let expected = expected[key].as_f64().expect("a number");
            assert!((found - expected).abs() < 1e-9, "{word}, {key}: {found} against {expected}");
        }
    }
    // What no package holds is marked as such.
    for station in STATIONS.iter().filter(|station| !kept.contains_key(station.word)) {
        let edition = station.citation.edition;
        assert!(
            station.citation.mark == Mark::SecondHand || !edition.starts_with("2009"),
            "{}: {edition}",
            station.word
        );
    }
}

#[test]
fn stations_are_possible_and_each_is_found_by_its_word() {
    for station in &STATIONS {
        assert_eq!(station_of(station.word), Some(station));
        assert!(station.coldest() < station.hottest(), "{}", station.word);
        assert!(station.latitude().to_degrees().abs() < 70.0, "{}", station.word);
        // Colder than Siberia or hotter than the Sahara would be a slip of the pen.
        assert!(station.coldest() > 273.15 - 50.0 && station.hottest() < 273.15 + 50.0, "{}", station.word);
    }
    assert_eq!(station_of("Aberdeen"), None);
    assert_eq!(station_of(""), None);
}
