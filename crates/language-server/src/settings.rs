//! What a builder can set: from `initializationOptions`, and later from the editor's settings.

use serde_json::Value;

/// The name under which editors keep our settings.
const SECTION: &str = "coachwright";

/// The setting of the inlay hints: one word for all, or one for each sort.
const INLAY_HINTS: &str = "inlayHints";

/// The setting of the checks that cannot be decided yet: `each` by itself, or `folded` into one for each place.
const UNDECIDED: &str = "undecided";

/// Whether undecided checks are folded, after these settings came; what they do not speak of stays.
pub fn folds(settings: Option<&Value>, before: bool) -> bool {
    let own = settings.map(|settings| settings.get(SECTION).unwrap_or(settings));
    match own.and_then(|own| own.get(UNDECIDED)).and_then(Value::as_str) {
        Some("folded") => true,
        Some("each") => false,
        _ => before,
    }
}

/// Which inlay hints are shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Hints {
    /// Current and voltage drop behind circuits and ways.
    pub circuits: bool,
    /// The largest fault current at protective devices.
    pub devices: bool,
    /// How long the batteries last.
    pub batteries: bool,
    /// The load of inverters.
    pub inverters: bool,
}

impl Hints {
    const fn all(shown: bool) -> Self {
        Self { circuits: shown, devices: shown, batteries: shown, inverters: shown }
    }

    /// What `initializationOptions` say.
    pub fn of_options(options: Option<&Value>) -> Self {
        options.map_or_else(Self::default, |options| Self::default().changed(options))
    }

    /// These hints after other settings came. What the settings do not speak of, and what is neither yes nor no, stays.
    #[must_use]
    pub fn changed(self, settings: &Value) -> Self {
        let own = settings.get(SECTION).unwrap_or(settings);
        match own.get(INLAY_HINTS) {
            Some(Value::Bool(shown)) => Self::all(*shown),
            Some(sorts) => {
                let shown = |sort: &str, before| sorts.get(sort).and_then(Value::as_bool).unwrap_or(before);
                Self {
                    circuits: shown("circuits", self.circuits),
                    devices: shown("devices", self.devices),
                    batteries: shown("batteries", self.batteries),
                    inverters: shown("inverters", self.inverters),
                }
            }
            None => self,
        }
    }
}

impl Default for Hints {
    fn default() -> Self {
        Self::all(true)
    }
}
