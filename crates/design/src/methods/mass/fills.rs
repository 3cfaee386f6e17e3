//! How full everything is: the states in which a vehicle is judged, and the worst that tanks and people can make of each axle and side.

use super::burden::Burden;
use calc::mass::{Filling, LoadState};

/// What a fill is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum State {
    /// As built: no people, no water, no cargo, no more fuel than when it was weighed.
    AsBuilt,
    /// Driver and fuel, no other people, no water, no cargo: the mass in running order of Regulation (EU) 1230/2012 Article 2.
    RunningOrder,
    /// Laden, with its tanks so.
    Laden(LoadState),
    /// Whatever comes and goes is aboard where it loads this more, and left ashore where it loads it less.
    Worst(Toward),
}

/// What is loaded most.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Toward {
    /// The front axle or the coupling.
    Front,
    /// The rear axle or axles.
    Rear,
    /// The left wheels.
    Left,
    /// The right wheels.
    Right,
}

/// A fill and its name in findings.
#[derive(Clone, Copy, Debug)]
pub struct Fill {
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub state: State,
}

/// All fills. The first stands for what does not differ by fill.
pub const FILLS: [Fill; 10] = [
    Fill { name: "laden, setting out", state: State::Laden(LoadState::SETTING_OUT) },
    Fill { name: "as built", state: State::AsBuilt },
    Fill { name: "in running order", state: State::RunningOrder },
    Fill { name: "laden, tanks empty", state: State::Laden(LoadState { fresh_water: 0.0, ..LoadState::SETTING_OUT }) },
    Fill { name: "laden, coming home", state: State::Laden(LoadState::COMING_HOME) },
    Fill { name: "laden, all tanks full", state: State::Laden(LoadState::ALL_FULL) },
    Fill { name: "filled worst for the front", state: State::Worst(Toward::Front) },
    Fill { name: "filled worst for the rear", state: State::Worst(Toward::Rear) },
    Fill { name: "filled worst to the left", state: State::Worst(Toward::Left) },
    Fill { name: "filled worst to the right", state: State::Worst(Toward::Right) },
];

/// The number of the fill in running order.
pub const RUNNING_ORDER: usize = 2;

/// The number of the fill as built.
pub const AS_BUILT: usize = 1;

/// The part of a burden that is aboard in a fill, 0 to 1. `factor` says how much a kilogram of it loads what a worst fill is
/// after, where its place is known.
pub fn share(state: State, burden: &Burden, factor: impl Fn(Toward) -> Option<f64>) -> f64 {
    let aboard = |yes: bool| if yes { 1.0 } else { 0.0 };
    if burden.filling == Filling::Always {
        return 1.0;
    }
    match state {
        State::AsBuilt => 0.0,
        // Gas cylinders are usually counted in by makers (second-hand).
        State::RunningOrder => aboard(burden.driver || matches!(burden.filling, Filling::Fuel | Filling::Gas)),
        State::Laden(state) => match burden.filling {
            Filling::Always => 1.0,
            Filling::Fuel => state.fuel,
            Filling::Gas => state.gas,
            Filling::FreshWater => state.fresh_water,
            Filling::GreyWater => state.grey_water,
            Filling::ToiletWaste => state.toilet_waste,
            Filling::Person => state.persons,
            Filling::Cargo => state.cargo,
        },
        // Without its place a load is counted, so that what is missing is told.
        State::Worst(toward) => aboard(burden.driver || factor(toward).is_none_or(|factor| factor > 0.0)),
    }
}
