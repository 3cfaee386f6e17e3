//! One vehicle, several states: empty, tanks full, grey tank full, people on board.

use crate::input::{InputError, need_entries, need_within};
use crate::mass::value::Item;

/// What makes a mass come and go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Filling {
    /// Always on board.
    Always,
    /// Fuel of the vehicle.
    Fuel,
    /// Gas in cylinders or tanks.
    Gas,
    /// Fresh water.
    FreshWater,
    /// Grey water.
    GreyWater,
    /// Toilet waste.
    ToiletWaste,
    /// A person.
    Person,
    /// Luggage and stores.
    Cargo,
}

/// A mass with what makes it come and go; the mass is that of the full tank or the seated person.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatedItem {
    /// Mass when full, and its place. A half-full tank is reckoned at the same place, which is a little high.
    pub item: Item,
    /// What it depends on.
    pub filling: Filling,
}

/// How full everything is, each a share from 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadState {
    /// Fuel of the vehicle.
    pub fuel: f64,
    /// Gas.
    pub gas: f64,
    /// Fresh water.
    pub fresh_water: f64,
    /// Grey water.
    pub grey_water: f64,
    /// Toilet waste.
    pub toilet_waste: f64,
    /// Persons.
    pub persons: f64,
    /// Luggage and stores.
    pub cargo: f64,
}

impl LoadState {
    /// Nothing on board but what is always there.
    pub const EMPTY: Self =
        Self { fuel: 0.0, gas: 0.0, fresh_water: 0.0, grey_water: 0.0, toilet_waste: 0.0, persons: 0.0, cargo: 0.0 };
    /// Setting out: all full but the waste tanks.
    pub const SETTING_OUT: Self =
        Self { fuel: 1.0, gas: 1.0, fresh_water: 1.0, persons: 1.0, cargo: 1.0, ..Self::EMPTY };
    /// Coming home: the fresh water has become grey water and waste.
    pub const COMING_HOME: Self = Self { fresh_water: 0.0, grey_water: 1.0, toilet_waste: 1.0, ..Self::SETTING_OUT };
    /// Every tank full at once: the greatest mass, if not the worst balance.
    pub const ALL_FULL: Self = Self { grey_water: 1.0, toilet_waste: 1.0, ..Self::SETTING_OUT };

    fn share(&self, filling: Filling) -> f64 {
        match filling {
            Filling::Always => 1.0,
            Filling::Fuel => self.fuel,
            Filling::Gas => self.gas,
            Filling::FreshWater => self.fresh_water,
            Filling::GreyWater => self.grey_water,
            Filling::ToiletWaste => self.toilet_waste,
            Filling::Person => self.persons,
            Filling::Cargo => self.cargo,
        }
    }
}

/// The masses in a state.
///
/// # Errors
/// No item; a share outside 0 to 1.
pub fn items_in_state(items: &[StatedItem], state: &LoadState) -> Result<Vec<Item>, InputError> {
    let mut present = Vec::with_capacity(items.len());
    for StatedItem { item, filling } in need_entries("masses", items)? {
        let share = need_within("share of the filling", state.share(*filling), 0.0, 1.0)?;
        present.push(Item { mass: item.mass.part(share)?, at: item.at });
    }
    Ok(present)
}
