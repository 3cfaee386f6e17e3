//! What a builder answers.

use quantity::{Dimension, Quantity};

/// The answers that a draft is written from.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Answers {
    /// The build's name.
    pub name: String,
    /// The word of the vehicle's class.
    pub vehicle: String,
    /// The words of the regions.
    pub regions: Vec<String>,
    /// The voltage that the system is called by, V.
    pub voltage: f64,
    /// The word of the battery's chemistry.
    pub chemistry: String,
    /// The battery's capacity, Ah.
    pub capacity: f64,
    /// Whether the engine charges the battery.
    pub driving: bool,
    /// Whether the sun charges it.
    pub solar: bool,
    /// The inverter's power, VA.
    pub inverter: Option<f64>,
    /// Whether there is a connection to the mains of a site.
    pub shore: bool,
    /// Whether gas is carried.
    pub gas: bool,
    /// Whether there is water aboard.
    pub water: bool,
    /// What the heater burns.
    pub heater: Option<String>,
    /// What the hob burns; `electric` when nothing.
    pub cooking: Option<String>,
    /// How many people sleep aboard.
    pub sleeps: u32,
    /// Whether there is a toilet.
    pub toilet: bool,
    /// Whether seats for travelling are fitted or changed.
    pub seats: bool,
}

/// One question: the option that answers it too, the words of it, and how an answer is taken.
#[derive(Clone, Copy)]
pub struct Question {
    /// The option's name.
    pub option: &'static str,
    /// The question.
    pub words: &'static str,
    /// What can be answered.
    pub choices: &'static str,
    /// An answer, as an example of the whole command gives it.
    pub example: &'static str,
    /// Takes an answer, or says why it cannot be and what to answer instead.
    pub take: fn(&str, &mut Answers) -> Result<(), String>,
}

const VEHICLES: &[&str] = &["van", "motor-caravan", "trailer", "bus", "work-vehicle", "commercial-unit"];
const REGIONS: &[&str] = &["us", "eu", "uk", "au-nz"];
const VOLTAGES: &[f64] = &[12.0, 24.0, 48.0];
const CHEMISTRIES: &[&str] = &["LFP", "AGM", "gel", "flooded"];
const HEATERS: &[&str] = &["no", "diesel", "petrol", "gas"];
const COOKING: &[&str] = &["no", "gas", "electric", "alcohol"];

/// The battery of a draft, Ah: below, it is no store for a vehicle; above, it is a bank, and the fuses of one battery do not
/// open its short circuit. Chosen.
const CAPACITY: (f64, f64) = (20.0, 400.0);

/// The smallest inverter that is fitted with a circuit of its own, VA. Chosen.
const LEAST_INVERTER: f64 = 100.0;

/// The largest inverter by the voltage of the system, VA: so that its cable and fuse are ones that are sold. Chosen.
fn largest_inverter(voltage: f64) -> f64 {
    if voltage < 24.0 { 2500.0 } else { 5000.0 }
}

/// The most people who sleep aboard. Chosen.
const MOST_SLEEPERS: u32 = 12;

/// The longest name, characters. Chosen: it stands on every page.
const LONGEST_NAME: usize = 60;

/// The questions in the order in which they are asked: an answer may rule out later ones.
pub const QUESTIONS: &[Question] = &[
    Question {
        option: "name",
        words: "What is the build called?",
        choices: "a name",
        example: "Wren",
        take: |text, answers| {
            let length = text.chars().count();
            if length == 0 || length > LONGEST_NAME || text.chars().any(char::is_control) {
                return Err(format!("write a name of 1 to {LONGEST_NAME} characters, without a line break"));
            }
            answers.name = text.to_owned();
            Ok(())
        },
    },
    Question {
        option: "vehicle",
        words: "What sort of vehicle is it?",
        choices: "van, motor-caravan, trailer, bus, work-vehicle or commercial-unit",
        example: "van",
        take: |text, answers| {
            answers.vehicle = one_of(text, VEHICLES)?;
            Ok(())
        },
    },
    Question {
        option: "region",
        words: "By the rules of which region is it built?",
        choices: "us, eu, uk or au-nz; or several of eu, uk and au-nz",
        example: "eu",
        take: |text, answers| {
            let mut regions = Vec::new();
            for word in text.split([',', ' ']).filter(|word| !word.is_empty()) {
                let region = one_of(word, REGIONS)?;
                if !regions.contains(&region) {
                    regions.push(region);
                }
            }
            if regions.is_empty() {
                return Err(format!("write one of {}", REGIONS.join(", ")));
            }
            if regions.len() > 1 && regions.iter().any(|region| region == "us") {
                return Err(String::from(
                    "the mains of the United States has another voltage than that of the others: write us alone, \
                     or several of eu, uk and au-nz",
                ));
            }
            answers.regions = regions;
            Ok(())
        },
    },
    Question {
        option: "voltage",
        words: "Which voltage do its battery and its loads have?",
        choices: "12 V, 24 V or 48 V",
        example: "12 V",
        take: |text, answers| {
            let volts = number(text, "V", Dimension::VOLTAGE)?;
            if !VOLTAGES.contains(&volts) {
                return Err(String::from("write the name of the system: 12 V, 24 V or 48 V"));
            }
            answers.voltage = volts;
            Ok(())
        },
    },
    Question {
        option: "chemistry",
        words: "What is its battery made of?",
        choices: "LFP (lithium iron phosphate), AGM, gel or flooded (the three of lead)",
        example: "LFP",
        take: |text, answers| {
            answers.chemistry = one_of(text, CHEMISTRIES)?;
            Ok(())
        },
    },
    Question {
        option: "capacity",
        words: "What is the capacity of its battery?",
        choices: "as on its label: 200 Ah",
        example: "200 Ah",
        take: |text, answers| {
            /// Coulomb in an ampere-hour.
            const AMPERE_HOUR: f64 = 3600.0;
            let capacity = number(text, "Ah", Dimension::CHARGE)? / AMPERE_HOUR;
            let (least, most) = CAPACITY;
            if capacity < least {
                return Err(format!("that is no store for a vehicle: write {least} Ah or more"));
            }
            if capacity > most {
                return Err(format!(
                    "the draft has one battery of at most {most} Ah, above which its fuses may not open a short circuit: \
                     write the capacity of one battery, and add the others of the bank later, each with its own fuse"
                ));
            }
            answers.capacity = capacity;
            Ok(())
        },
    },
    Question {
        option: "driving",
        words: "Is the battery charged while driving?",
        choices: "yes or no",
        example: "yes",
        take: |text, answers| {
            answers.driving = yes_or_no(text)?;
            Ok(())
        },
    },
    Question {
        option: "solar",
        words: "Is it charged by solar modules?",
        choices: "yes or no",
        example: "no",
        take: |text, answers| {
            answers.solar = yes_or_no(text)?;
            Ok(())
        },
    },
    Question {
        option: "inverter",
        words: "Does an inverter make alternating current from it?",
        choices: "no, or its power: 1000 VA",
        example: "no",
        take: |text, answers| {
            answers.inverter = inverter(text, answers)?;
            Ok(())
        },
    },
    Question {
        option: "shore",
        words: "Is it connected to the mains of a site or a house?",
        choices: "yes or no",
        example: "yes",
        take: |text, answers| {
            answers.shore = yes_or_no(text)?;
            Ok(())
        },
    },
    Question {
        option: "gas",
        words: "Is gas carried for heating or cooking?",
        choices: "yes or no",
        example: "no",
        take: |text, answers| {
            answers.gas = yes_or_no(text)?;
            Ok(())
        },
    },
    Question {
        option: "water",
        words: "Is there water aboard, with tanks and a pump?",
        choices: "yes or no",
        example: "yes",
        take: |text, answers| {
            answers.water = yes_or_no(text)?;
            Ok(())
        },
    },
    Question {
        option: "heater",
        words: "Does a heater warm the living space?",
        choices: "no, or what it burns: diesel, petrol or gas",
        example: "diesel",
        take: |text, answers| {
            let word = one_of(text, HEATERS)?;
            if word == "gas" && !answers.gas {
                return Err(String::from(
                    "a gas heater needs gas, and you said that none is carried: write no, diesel or petrol; or say yes to gas",
                ));
            }
            answers.heater = Some(word).filter(|word| word != "no");
            Ok(())
        },
    },
    Question {
        option: "cooking",
        words: "Is there a hob or an oven?",
        choices: "no, gas, electric or alcohol",
        example: "no",
        take: |text, answers| {
            let word = one_of(text, COOKING)?;
            if word == "gas" && !answers.gas {
                return Err(String::from(
                    "a gas hob needs gas, and you said that none is carried: write no, electric or alcohol; or say yes to gas",
                ));
            }
            if word == "electric" && !answers.shore && answers.inverter.is_none() {
                return Err(String::from(
                    "an electric hob needs alternating current, and there is neither shore nor an inverter: write no, gas or alcohol; or say yes to shore",
                ));
            }
            answers.cooking = Some(word).filter(|word| word != "no");
            Ok(())
        },
    },
    Question {
        option: "sleeps",
        words: "How many people sleep aboard?",
        choices: "0 when nobody does",
        example: "2",
        take: |text, answers| {
            answers.sleeps = match text.parse() {
                Ok(count) if count <= MOST_SLEEPERS => count,
                _ => return Err(format!("write a whole number from 0 to {MOST_SLEEPERS}")),
            };
            Ok(())
        },
    },
    Question {
        option: "toilet",
        words: "Is there a toilet?",
        choices: "yes or no",
        example: "no",
        take: |text, answers| {
            answers.toilet = yes_or_no(text)?;
            Ok(())
        },
    },
    Question {
        option: "seats",
        words: "Are seats for travelling fitted or changed?",
        choices: "yes or no",
        example: "no",
        take: |text, answers| {
            let seats = yes_or_no(text)?;
            if seats && answers.vehicle == "trailer" {
                return Err(String::from("nobody travels in a trailer: write no"));
            }
            answers.seats = seats;
            Ok(())
        },
    },
];

fn one_of(text: &str, words: &[&str]) -> Result<String, String> {
    if let Some(word) = words.iter().find(|word| word.eq_ignore_ascii_case(text)) {
        return Ok((*word).to_owned());
    }
    let near = vocabulary::nearest(text, words.iter().copied());
    let near = near.map(|near| format!("; did you mean {near}?")).unwrap_or_default();
    Err(format!("write one of {}{near}", words.join(", ")))
}

fn yes_or_no(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "yes" | "y" => Ok(true),
        "no" | "n" => Ok(false),
        _ => Err(String::from("write yes or no")),
    }
}

/// A quantity in coherent SI units; a bare number is asked again, with the unit that may be meant.
fn number(text: &str, unit: &str, dimension: Dimension) -> Result<f64, String> {
    match quantity::read_non_negative(text, dimension) {
        Ok(Quantity { value, .. }) => Ok(value),
        Err(fault) => Err(match fault.instead {
            Some(instead) => format!("{}: write {instead}", fault.message),
            None => format!("{}: write a number and its unit, {unit}", fault.message),
        }),
    }
}

fn inverter(text: &str, answers: &Answers) -> Result<Option<f64>, String> {
    if matches!(text.to_lowercase().as_str(), "no" | "n" | "none") {
        return Ok(None);
    }
    if yes_or_no(text).is_ok() {
        return Err(String::from("write its power, as 1000 VA, or no"));
    }
    let power = number(text, "VA, or no", Dimension::POWER)?;
    let most = largest_inverter(answers.voltage);
    if power < LEAST_INVERTER {
        return Err(format!("write {LEAST_INVERTER} VA or more, or no"));
    }
    if power > most {
        let higher = if answers.voltage < 24.0 { ", or choose 24 V or 48 V for the battery" } else { "" };
        return Err(format!(
            "at {} V write {most} VA or less{higher}: more needs cables that are hardly sold",
            answers.voltage
        ));
    }
    // In an hour it would take more than the battery holds.
    let hour = answers.voltage * answers.capacity;
    if power > hour {
        return Err(format!(
            "it would empty {} Ah at {} V within an hour: write {} VA or less, or choose a larger battery",
            answers.capacity,
            answers.voltage,
            hour.floor()
        ));
    }
    Ok(Some(power))
}
