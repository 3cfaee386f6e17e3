//! What the differences do to masses, energy and cost.

use crate::desk::Desk;
use crate::sheet::{Cell, Value};
use crate::sheets::{Season, seasons};
use crate::show;
use crate::words::{american, changes as words};
use design::{Build, PartId};
use quantity::{Currency, Dimension, Quantity};
use vocabulary::{
    FactId, FactKind, fact, fact::build as b, fact::vehicle as v, fact::week as w, fact::zone as z, kind,
};

/// What an effect is on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Field {
    /// Masses and axles.
    Mass,
    /// Energy.
    Energy,
    /// Heat.
    Heat,
    /// Cost and work.
    Cost,
}

impl Field {
    /// Every one, in order.
    pub const ALL: [Self; 4] = [Self::Mass, Self::Energy, Self::Heat, Self::Cost];

    /// Its word in data.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Energy => "energy",
            Self::Heat => "heat",
            Self::Cost => "cost",
        }
    }

    /// Its name for a reader.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Mass => words::MASS,
            Self::Energy => words::ENERGY,
            Self::Heat => words::HEAT,
            Self::Cost => words::COST,
        }
    }
}

/// One value that differs.
#[derive(Clone, PartialEq, Debug)]
pub struct Effect {
    /// What it is on.
    pub field: Field,
    /// What it is: `axle rear carries at most`.
    pub what: String,
    /// As it was, in words.
    pub old: String,
    /// As it is.
    pub new: String,
    /// New less old, in coherent SI units, where both are known; money in its currency.
    pub difference: Option<f64>,
    /// The same in words, with its sign.
    pub shown: String,
    /// What the difference measures.
    pub dimension: Option<Dimension>,
}

const OF_VEHICLE: [(FactId, &str); 6] = [
    (v::RUNNING_ORDER, words::RUNNING_ORDER),
    (v::LADEN, words::LADEN),
    (v::PAYLOAD_LEFT, words::PAYLOAD_LEFT),
    (v::SIDE_DIFFERENCE, words::SIDE_DIFFERENCE),
    (v::CENTRE_ABOVE_ROAD, words::CENTRE),
    (v::ROOF_LOAD, words::ROOF),
];

const OF_WEEK: [(FactId, &str); 6] = [
    (w::ENERGY_A_DAY, words::TAKEN),
    (w::USABLE_ENERGY, words::USABLE),
    (w::SUN_A_DAY, words::SUN),
    (w::DRIVING_A_DAY, words::DRIVING),
    (w::AUTONOMY, words::AUTONOMY),
    (w::LOWEST, words::LOWEST),
];

const OF_BUILD: [(FactId, &str); 3] =
    [(b::PARTS_COST, words::PARTS_COST), (b::WORK_HOURS, words::WORK), (b::TOTAL_COST, words::TOTAL_COST)];

/// Every value that differs.
pub fn effects(old: &mut Desk<'_, '_>, new: &mut Desk<'_, '_>) -> Vec<Effect> {
    let mut effects = Vec::new();
    masses(old, new, &mut effects);
    energies(old, new, &mut effects);
    heats(old, new, &mut effects);
    let (was, is) = (currency(old.build), currency(new.build));
    for (fact, title) in OF_BUILD {
        let mut pair = [old.fact(Build::ROOT, fact), new.fact(Build::ROOT, fact)];
        for (cell, currency) in pair.iter_mut().zip([was, is]) {
            if let Value::Quantity(quantity) = &mut cell.value
                && quantity.dimension == Dimension::MONEY
            {
                quantity.currency = quantity.currency.or(currency);
            }
        }
        effects.extend(effect(new, Field::Cost, title.to_owned(), &pair));
    }
    effects
}

fn masses(old: &mut Desk<'_, '_>, new: &mut Desk<'_, '_>, effects: &mut Vec<Effect>) {
    for (kind, loads) in [
        (kind::AXLE, [(fact::axle::LOAD, words::CARRIES), (fact::axle::MARGIN, words::LEFT)].as_slice()),
        (kind::COUPLING, [(fact::coupling::LOAD, words::CARRIES)].as_slice()),
    ] {
        for &support in new.of_kind(kind) {
            let name = new.build.part(support).name.clone();
            let before = old.of_kind(kind).iter().copied().find(|part| old.build.part(*part).name == name);
            for (fact, title) in loads {
                let what = format!("{} {title}", new.build.part(support).title);
                let pair = [of(old, before, *fact), new.fact(support, *fact)];
                effects.extend(effect(new, Field::Mass, what, &pair));
            }
        }
    }
    let (before, after) = (old.build.only(kind::VEHICLE), new.build.only(kind::VEHICLE));
    for (fact, title) in OF_VEHICLE {
        let pair = [of(old, before, fact), of(new, after, fact)];
        let title = american::in_words(new.build, title).to_owned();
        effects.extend(effect(new, Field::Mass, title, &pair));
    }
}

fn energies(old: &mut Desk<'_, '_>, new: &mut Desk<'_, '_>, effects: &mut Vec<Effect>) {
    let (before, after) = (seasons(old), seasons(new));
    let climate = |desk: &Desk<'_, '_>, season: &Season| desk.reader.cases().climate(season.case).to_owned();
    for season in &after {
        let own = climate(new, season);
        let was = before.iter().find(|other| other.bank == season.bank && climate(old, other) == own);
        for (fact, title) in OF_WEEK {
            let earlier = was.map_or_else(Cell::empty, |was| old.fact_in(was.week, fact, was.case));
            let pair = [earlier, new.fact_in(season.week, fact, season.case)];
            effects.extend(effect(new, Field::Energy, format!("{}: {title}", season.title), &pair));
        }
    }
    let mut gone = before;
    gone.retain(|was| {
        let own = climate(old, was);
        !after.iter().any(|season| season.bank == was.bank && climate(new, season) == own)
    });
    for season in &gone {
        for (fact, title) in OF_WEEK {
            let pair = [old.fact_in(season.week, fact, season.case), Cell::empty()];
            effects.extend(effect(new, Field::Energy, format!("{}: {title}", season.title), &pair));
        }
    }
}

const OF_SPACE: [(FactId, &str); 4] = [
    (z::HEAT_LOSS, words::LOSES),
    (z::HEATING, words::HEATERS),
    (z::HEATERS_RUN, words::RUN),
    (z::FUEL_A_DAY, words::FUEL),
];

/// The spaces of which heat is asked in either revision, by name.
fn heats(old: &mut Desk<'_, '_>, new: &mut Desk<'_, '_>, effects: &mut Vec<Effect>) {
    let asked = |desk: &mut Desk<'_, '_>, space: PartId| desk.fact(space, z::HEAT_ASKED).value == Value::Flag(true);
    for &space in new.of_kind(kind::ZONE) {
        let name = new.build.part(space).name.clone();
        let before = old.of_kind(kind::ZONE).iter().copied().find(|part| old.build.part(*part).name == name);
        if !asked(new, space) && !before.is_some_and(|before| asked(old, before)) {
            continue;
        }
        for (fact, title) in OF_SPACE {
            let what = format!("{} {title}", new.build.part(space).title);
            let pair = [of(old, before, fact), new.fact(space, fact)];
            effects.extend(effect(new, Field::Heat, what, &pair));
        }
    }
}

fn of(desk: &mut Desk<'_, '_>, part: Option<PartId>, fact: FactId) -> Cell {
    part.map_or_else(Cell::empty, |part| desk.fact(part, fact))
}

/// The currency of the first price; sums of several are not known anyway.
fn currency(build: &Build) -> Option<Currency> {
    let given = build.parts().flat_map(|(_, part)| &part.given);
    given.filter(|given| vocabulary::fact_spec(given.fact).kind == FactKind::Quantity(Dimension::MONEY)).find_map(
        |given| match &given.value {
            spec::Value::Quantity(quantity) => quantity.currency,
            _ => None,
        },
    )
}

/// The effect, where the two differ; what has no answer on either side is none.
fn effect(desk: &Desk<'_, '_>, field: Field, what: String, [old, new]: &[Cell; 2]) -> Option<Effect> {
    /// Differences smaller than this part of a value are rounding.
    const ROUNDING: f64 = 1e-9;
    let units = desk.review.units;
    let told = |cell: &Cell| match &cell.value {
        Value::Empty => words::NOTHING.to_owned(),
        Value::Unknown { settle } if settle.is_empty() => words::NOTHING.to_owned(),
        _ => show::shown(cell, units),
    };
    let (was, is) = (told(old), told(new));
    let number = |cell: &Cell| match &cell.value {
        Value::Quantity(quantity) => Some(*quantity),
        _ => None,
    };
    let (difference, shown, dimension) = match (number(old), number(new)) {
        (Some(one), Some(other)) if one.currency == other.currency => {
            let difference = other.value - one.value;
            if difference.abs() <= ROUNDING * one.value.abs().max(other.value.abs()) {
                return None;
            }
            let size = show::quantity(Quantity { value: difference.abs(), ..other }, units);
            let sign = if difference < 0.0 { "−" } else { "+" };
            (Some(difference), format!("{sign}{size}"), Some(other.dimension))
        }
        _ if was == is => return None,
        (one, other) => (None, String::new(), one.or(other).map(|quantity| quantity.dimension)),
    };
    Some(Effect { field, what, old: was, new: is, difference, shown, dimension })
}
