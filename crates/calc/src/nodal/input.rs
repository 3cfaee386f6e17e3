//! What a network is made of, and what is refused.

use super::LARGEST_NUMBER;

/// What a load draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// A heater or a lamp: constant resistance, Ω, above zero.
    Resistance(f64),
    /// Constant current, A.
    Current(f64),
    /// Constant power, W: what has a converter in it.
    Power(f64),
}

/// What an element is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// A conductor, closed contact, fuse or bond, Ω. At [`super::JOINT_OHMS`] or less its ends are one node.
    Conductor {
        /// Resistance, Ω.
        ohms: f64,
    },
    /// An open contact, a blown fuse.
    Open,
    /// A diode or an isolator: carries current from its first node to its second only.
    OneWay {
        /// Voltage that it takes before it carries anything, V; zero for an ideal one.
        forward_volts: f64,
        /// Resistance beyond that, Ω; at least [`super::LEAST_INNER_OHMS`] is reckoned.
        ohms: f64,
    },
    /// A battery, or the output of a converter, charger or alternator: plus at the first node, minus at the second.
    Source {
        /// Open-circuit voltage, V.
        volts: f64,
        /// Internal resistance, Ω; at least [`super::LEAST_INNER_OHMS`] is reckoned.
        ohms: f64,
        /// Most that it gives, A, where it limits itself.
        limit: Option<f64>,
        /// True for what takes no current in (a charger, an alternator); false for a battery.
        gives_only: bool,
    },
    /// A load: plus at the first node, minus at the second.
    Load {
        /// What it draws.
        load: Load,
        /// Least voltage at which it runs, V; zero where it has none.
        least_volts: f64,
    },
}

/// A two-terminal element of a network.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Element {
    /// First node (plus, or where a one-way element lets in).
    pub from: u32,
    /// Second node.
    pub to: u32,
    /// What it is.
    pub part: Part,
}

/// Elements between nodes. The nodes are whatever numbers the elements name.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Network {
    /// The elements; their places in this list name them.
    pub elements: Vec<Element>,
    /// The node whose voltage is zero in its island, for example the chassis. In every other island it is the minus of the first source.
    pub reference: Option<u32>,
}

/// What is wrong with a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InputFault {
    /// Not a number or infinite.
    NotFinite,
    /// Below zero.
    Negative,
    /// Zero where only more makes sense (the resistance of a load).
    Zero,
    /// Above [`super::LARGEST_NUMBER`].
    TooLarge,
}

/// Why there is no solution to give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SolveError {
    /// A number of an element cannot be used.
    Input {
        /// Place of the element in the list.
        element: usize,
        /// Which of its numbers: "ohms", "volts", "limit", "forward_volts", "least_volts", "amperes" or "watts".
        quantity: &'static str,
        /// What is wrong.
        fault: InputFault,
    },
    /// The iteration did not settle within its bound: the numbers are too far apart.
    NotSettled,
}

impl Network {
    /// Adds an element; answers its place in the list.
    pub fn add(&mut self, from: u32, to: u32, part: Part) -> usize {
        self.elements.push(Element { from, to, part });
        self.elements.len() - 1
    }

    pub(super) fn check(&self) -> Result<(), SolveError> {
        for (element, one) in self.elements.iter().enumerate() {
            let check = |quantity, value: f64, zero_allowed: bool| match fault_of(value, zero_allowed) {
                Some(fault) => Err(SolveError::Input { element, quantity, fault }),
                None => Ok(()),
            };
            match one.part {
                Part::Open => {}
                Part::Conductor { ohms } => check("ohms", ohms, true)?,
                Part::OneWay { forward_volts, ohms } => {
                    check("forward_volts", forward_volts, true)?;
                    check("ohms", ohms, true)?;
                }
                Part::Source { volts, ohms, limit, .. } => {
                    check("volts", volts, true)?;
                    check("ohms", ohms, true)?;
                    check("limit", limit.unwrap_or(0.0), true)?;
                }
                Part::Load { load, least_volts } => {
                    check("least_volts", least_volts, true)?;
                    match load {
                        Load::Resistance(ohms) => check("ohms", ohms, false)?,
                        Load::Current(amperes) => check("amperes", amperes, true)?,
                        Load::Power(watts) => check("watts", watts, true)?,
                    }
                }
            }
        }
        Ok(())
    }
}

fn fault_of(value: f64, zero_allowed: bool) -> Option<InputFault> {
    match value {
        _ if !value.is_finite() => Some(InputFault::NotFinite),
        _ if value < 0.0 => Some(InputFault::Negative),
        _ if value == 0.0 && !zero_allowed => Some(InputFault::Zero),
        _ if value > LARGEST_NUMBER => Some(InputFault::TooLarge),
        _ => None,
    }
}
