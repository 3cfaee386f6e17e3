//! The battery as a store: how a state of charge falls and rises, solved exactly for a constant power.

/// Fastest fall of the state of charge that is reckoned with, 1/s: an empty battery within a microsecond. Chosen; it keeps sums finite.
const FASTEST_FALL: f64 = 1e6;

/// A battery in shares of its capacity.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Store {
    /// Rated capacity × nominal voltage, J.
    pub(crate) joules: f64,
    /// Energy given over energy taken out.
    pub(crate) discharge_efficiency: f64,
    /// Peukert's exponent.
    pub(crate) exponent: f64,
    /// Power of the rated discharge, W.
    pub(crate) rated_watts: f64,
    /// Largest charging current over the capacity, 1/s; may be infinite.
    pub(crate) limit: f64,
    /// The missing share at which the taper begins.
    pub(crate) taper: f64,
    /// Energy stored over energy given to it below the taper.
    pub(crate) charge_efficiency: f64,
    /// The same within it.
    pub(crate) taper_efficiency: f64,
}

impl Store {
    /// How fast the state of charge falls at a power W out of the terminals, 1/s.
    pub(crate) fn fall(&self, watts: f64) -> f64 {
        let fall = watts / (self.discharge_efficiency * self.joules);
        let by_peukert = if self.exponent > 1.0 && watts > self.rated_watts {
            (watts / self.rated_watts).powf(self.exponent - 1.0)
        } else {
            1.0
        };
        (fall * by_peukert).min(FASTEST_FALL)
    }

    /// The exponent with which the fall grows with the power, at a power W: the slope of the fall over fall ÷ power.
    pub(crate) fn exponent_at(&self, watts: f64) -> f64 {
        if watts > self.rated_watts { self.exponent } else { 1.0 }
    }

    /// The current that a power W brings, over the capacity, 1/s.
    fn inflow(&self, watts: f64) -> f64 {
        (watts / self.joules).min(self.limit)
    }

    /// The missing share below which the current follows the taper instead of the source.
    fn handover(&self, inflow: f64) -> f64 {
        if self.limit.is_finite() && self.taper > 0.0 { self.taper * inflow / self.limit } else { 0.0 }
    }

    /// The state after charging at a power W for some seconds, and the energy that went in at the terminals, J.
    pub(crate) fn charge(&self, state: f64, watts: f64, seconds: f64) -> (f64, f64) {
        let inflow = self.inflow(watts);
        let mut missing = 1.0 - state;
        if inflow <= 0.0 || missing <= 0.0 {
            return (state, 0.0);
        }
        let (mut left, mut accepted) = (seconds, 0.0);
        let handover = self.handover(inflow);
        for (until, efficiency) in [(self.taper, self.charge_efficiency), (handover, self.taper_efficiency)] {
            if missing <= until {
                continue;
            }
            let rise = inflow * efficiency;
            let needed = (missing - until) / rise;
            if needed >= left {
                return (1.0 - (missing - rise * left), (accepted + inflow * left) * self.joules);
            }
            accepted += inflow * needed;
            left -= needed;
            missing = until;
        }
        if handover > 0.0 {
            let after = missing * (-self.limit * self.taper_efficiency / self.taper * left).exp();
            accepted += (missing - after) / self.taper_efficiency;
            missing = after;
        }
        (1.0 - missing, accepted * self.joules)
    }

    /// Time to charge from one state to another at a power W, s; infinite without power.
    pub(crate) fn charging_time(&self, from: f64, to: f64, watts: f64) -> f64 {
        let inflow = self.inflow(watts);
        let (mut missing, at_end) = (1.0 - from, 1.0 - to);
        if missing <= at_end {
            return 0.0;
        }
        if inflow <= 0.0 {
            return f64::INFINITY;
        }
        let mut seconds = 0.0;
        let handover = self.handover(inflow);
        for (until, efficiency) in [(self.taper, self.charge_efficiency), (handover, self.taper_efficiency)] {
            let until = until.max(at_end);
            if missing > until {
                seconds += (missing - until) / (inflow * efficiency);
                missing = until;
            }
        }
        if missing > at_end {
            let rate = self.limit * self.taper_efficiency / self.taper;
            seconds += (missing / at_end).ln() / rate;
        }
        seconds
    }
}
