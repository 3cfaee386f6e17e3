//! Weather stations with the coldest night and the hottest day of a usual year.
//!
//! Coldest and hottest: the mean over some thirty years of each year's lowest and highest dry-bulb temperature. They are handbook values
//! as they stand in the heads of public weather files; editions as cited with each. A colder night than the mean comes every second year.
//! That a vehicle is designed for this mean and not for the milder percentiles of buildings is chosen: it has little mass that stores heat.

use crate::citation::{Citation, Mark};
use crate::temperature::kelvin;

/// A weather station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// What specifications call it.
    pub word: &'static str,
    /// Its name and country.
    pub title: &'static str,
    latitude_degrees: f64,
    coldest_celsius: f64,
    hottest_celsius: f64,
    /// Where the numbers come from.
    pub citation: &'static Citation,
}

impl Station {
    /// Latitude, rad; north is positive.
    #[must_use]
    pub const fn latitude(&self) -> f64 {
        self.latitude_degrees.to_radians()
    }

    /// The mean of the lowest temperatures of its years, K.
    #[must_use]
    pub const fn coldest(&self) -> f64 {
        kelvin(self.coldest_celsius)
    }

    /// The mean of the highest temperatures of its years, K.
    #[must_use]
    pub const fn hottest(&self) -> f64 {
        kelvin(self.hottest_celsius)
    }
}

const fn handbook(edition: &'static str, mark: Mark) -> Citation {
    Citation {
        document: "ASHRAE Handbook, climatic design information",
        place: "mean of the annual extreme dry-bulb temperatures",
        edition,
        mark,
        address: "",
    }
}

/// In the heads of weather files that registry packages hold (`tests/reference/make_climate_reference.py`).
static OF_2009: Citation = handbook("2009, in the heads of weather files", Mark::Read);
/// In the head of a weather file that a program's tests quote.
static OF_2009_QUOTED: Citation = handbook("2009, quoted from the heads of weather files", Mark::SecondHand);
/// In the statistics beside a weather file.
static OF_2013: Citation = handbook("2013, in the statistics of a weather file", Mark::Read);
/// In the statistics beside a weather file.
static OF_2017: Citation = handbook("2017, in the statistics of a weather file", Mark::Read);
/// In the head of a weather file that a program's manual quotes.
static OF_2021_QUOTED: Citation = handbook("2021, quoted from the head of a weather file", Mark::SecondHand);

const fn station(
    word: &'static str,
    title: &'static str,
    latitude_degrees: f64,
    [coldest_celsius, hottest_celsius]: [f64; 2],
    citation: &'static Citation,
) -> Station {
    Station { word, title, latitude_degrees, coldest_celsius, hottest_celsius, citation }
}

/// The stations, by their words: latitude in degrees, coldest and hottest in °C.
pub static STATIONS: [Station; 22] = [
    station("aberdeen", "Aberdeen, United Kingdom", 57.20, [-9.7, 25.2], &OF_2009),
    station("antananarivo", "Antananarivo, Madagascar", -18.80, [4.3, 31.6], &OF_2009),
    station("athens", "Athens, Greece", 37.90, [-3.9, 37.5], &OF_2009_QUOTED),
    station("bogota", "Bogotá, Colombia", 4.70, [-0.5, 24.7], &OF_2009),
    station("calgary", "Calgary, Canada", 51.11, [-31.6, 31.7], &OF_2017),
    station("chicago", "Chicago, United States", 41.98, [-23.7, 35.9], &OF_2009),
    station("copenhagen", "Copenhagen, Denmark", 55.63, [-11.0, 27.9], &OF_2009_QUOTED),
    station("denver", "Denver, United States", 39.83, [-22.7, 37.1], &OF_2009),
    station("fairbanks", "Fairbanks, United States", 64.82, [-42.7, 30.4], &OF_2013),
    station("granada", "Granada, Spain", 37.18, [-6.2, 40.1], &OF_2009),
    station("helsinki", "Helsinki, Finland", 60.32, [-25.1, 28.9], &OF_2009),
    station("lisbon", "Lisbon, Portugal", 38.73, [1.9, 38.3], &OF_2009),
    station("london", "London (Gatwick), United Kingdom", 51.15, [-7.6, 30.2], &OF_2009),
    station("munich", "Munich, Germany", 48.16, [-13.4, 33.1], &OF_2021_QUOTED),
    station("new-york", "New York, United States", 40.65, [-13.7, 35.6], &OF_2009),
    station("pittsburgh", "Pittsburgh, United States", 40.35, [-19.5, 34.0], &OF_2009),
    station("port-angeles", "Port Angeles, United States", 48.12, [-5.9, 30.8], &OF_2009),
    station("seville", "Seville, Spain", 37.42, [-1.3, 43.0], &OF_2009),
    station("stockholm", "Stockholm, Sweden", 59.65, [-19.5, 29.3], &OF_2009),
    station("sydney", "Sydney, Australia", -33.95, [4.0, 39.0], &OF_2009),
    station("tokyo", "Tokyo (Hyakuri), Japan", 36.18, [-9.5, 34.1], &OF_2009),
    station("tucson", "Tucson, United States", 32.17, [-2.5, 42.7], &OF_2009),
];

/// The station of a word; none where no station is called so.
#[must_use]
pub fn station_of(word: &str) -> Option<&'static Station> {
    STATIONS.iter().find(|station| station.word == word)
}
