//! Pump, pipe and tap together: what flows, and with what pressure.

use crate::input::{InputError, need_not_negative, need_positive, outcome};
use crate::interval::Interval;
use crate::water::pipe::{friction_loss, static_pressure};
use crate::water::properties::Water;

/// A pressure pump by its data sheet: a straight line from open flow to the pressure at which it stops.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pump {
    /// Flow against no pressure, m³/s.
    pub open_flow: f64,
    /// Pressure at which its switch stops it, Pa.
    pub cut_out: f64,
}

impl Pump {
    /// Pressure that the pump gives at a flow m³/s, Pa; none beyond its open flow.
    fn pressure(&self, flow: f64) -> f64 {
        self.cut_out * (1.0 - flow / self.open_flow).max(0.0)
    }
}

/// The way from the pump to an outlet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Route {
    /// Inside diameter, m.
    pub diameter: f64,
    /// Length, m.
    pub length: f64,
    /// Roughness, m.
    pub roughness: f64,
    /// Sum of the loss coefficients of fittings.
    pub fittings: f64,
    /// Rise from the water's surface in the tank to the outlet, m; below zero where the outlet is lower.
    pub rise: f64,
}

/// Pressure that a route takes at a flow m³/s, Pa: friction and rise.
///
/// # Errors
/// What [`friction_loss`](crate::water::friction_loss) refuses; a rise that is not finite.
pub fn route_loss(route: &Route, flow: f64, water: &Water) -> Result<Interval, InputError> {
    friction_loss(flow, route.diameter, route.length, route.roughness, route.fittings, water)?
        .plus(Interval::exact(static_pressure(route.rise, water)?)?)
}

/// Pressure left at an outlet, Pa, when the pump gives a pressure Pa at a flow m³/s; below zero where that flow does not come.
///
/// # Errors
/// As for [`route_loss`]; a pressure below zero.
pub fn pressure_at_outlet(pressure: f64, route: &Route, flow: f64, water: &Water) -> Result<Interval, InputError> {
    Interval::exact(need_not_negative("pump pressure", pressure)?)?.minus(route_loss(route, flow, water)?)
}

/// Flow and pressures where pump and route agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Working {
    /// Flow at the outlet, m³/s; a range where the flow may be quiet or turbulent.
    pub flow: Interval,
    /// Pressure at the pump at the greater flow, Pa.
    pub pump_pressure: f64,
}

/// Bisections of the flow: 2⁻⁶⁰ of the open flow.
const HALVINGS: u32 = 60;

/// The flow at which the pump's pressure is what route and outlet take. `outlet` is the outlet's resistance, Pa·s²/m⁶ (pressure over flow
/// squared); 0 for an open end. Nothing flows where the outlet stands higher than the pump can lift.
///
/// # Errors
/// A pump without flow or pressure; what [`route_loss`] refuses; an outlet resistance below zero.
pub fn pump_working_point(pump: &Pump, route: &Route, outlet: f64, water: &Water) -> Result<Working, InputError> {
    need_positive("open flow of the pump", pump.open_flow)?;
    need_positive("cut-out pressure of the pump", pump.cut_out)?;
    let outlet = need_not_negative("resistance of the outlet", outlet)?;
    let solve = |of: fn(Interval) -> f64| -> Result<f64, InputError> {
        let (mut low, mut high) = (0.0, pump.open_flow);
        for _ in 0..HALVINGS {
            let flow = f64::midpoint(low, high);
            let taken = outcome("pressure", of(route_loss(route, flow, water)?) + outlet * flow * flow)?;
            if taken < pump.pressure(flow) { low = flow } else { high = flow }
        }
        Ok(low)
    };
    // The greater loss gives the smaller flow.
    let (least, most) = (solve(Interval::most)?, solve(Interval::least)?);
    Ok(Working { flow: Interval::new(least.min(most), most.max(least))?, pump_pressure: pump.pressure(most) })
}
