//! Monthly mean global irradiation of a level plane at places whose typical years could be read.
//!
//! Means worked out from typical-meteorological-year files in public packages: TMY3 and TMY2 (United States, public domain) with
//! pvlib 0.16.1, and IWEC (ASHRAE) files packed in accim-samples 0.8.2. Only the twelve means are kept, not the files. Mark: computed.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "typical meteorological years (TMY2, TMY3, IWEC) of seven places",
    place: "monthly means of the global irradiation of a level plane",
    edition: "files of pvlib 0.16.1 and accim-samples 0.8.2",
    mark: Mark::Computed,
    address: "",
};

/// A place: name, latitude in degrees north, kWh/m² a day from January to December.
pub(crate) struct Place {
    pub(crate) name: &'static str,
    pub(crate) latitude: f64,
    pub(crate) months: [f64; 12],
}

const fn place(name: &'static str, latitude: f64, months: [f64; 12]) -> Place {
    Place { name, latitude, months }
}

pub(crate) static PLACES: [Place; 7] = [
    place("Miami", 25.8, [3.49, 4.43, 5.16, 6.16, 6.03, 5.76, 5.99, 5.67, 4.91, 4.37, 3.57, 3.36]),
    place("Greensboro", 36.1, [2.41, 3.06, 4.25, 5.41, 5.64, 6.25, 6.08, 5.61, 4.43, 3.59, 2.43, 2.24]),
    place("Sevilla", 37.4, [2.42, 3.37, 4.81, 5.43, 6.94, 7.18, 7.52, 6.82, 5.35, 3.74, 2.54, 2.17]),
    place("London Gatwick", 51.2, [0.71, 1.19, 2.12, 3.64, 4.91, 4.91, 5.02, 4.35, 2.97, 1.75, 0.97, 0.55]),
    place("Sand Point", 55.3, [0.58, 1.05, 1.85, 3.06, 3.28, 3.81, 5.00, 2.70, 3.04, 1.61, 0.74, 0.46]),
    place("Aberdeen", 57.2, [0.45, 1.02, 2.11, 3.23, 4.05, 4.68, 4.29, 3.60, 2.33, 1.31, 0.65, 0.31]),
    place("Sydney", -33.95, [6.60, 5.63, 4.87, 3.74, 2.66, 2.18, 2.56, 3.56, 4.58, 5.64, 5.99, 6.38]),
];
