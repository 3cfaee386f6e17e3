//! Texts of the hazard register.

pub const TITLE: &str = "Hazard register";
pub const PURPOSE: &str = "For the shop and the certifier: what aboard can hurt somebody, how much of it there is, and what holds it in check.";
pub const HAZARD: &str = "Hazard";
pub const HOW_MUCH: &str = "How much";
pub const HELD_BY: &str = "Held in check by";
pub const OPEN: &str = "Open findings on it";
pub const CHECKED: &str = "Checked by, on";
pub const ENERGY: &str = "stored electrical energy: arc, burn, fire";
pub const SHORT: &str = "into a dead short";
pub const MAINS: &str = "electric shock and arc";
pub const GAS: &str = "explosion, fire, loss of breath";
pub const FUEL: &str = "fire";
pub const BURNING: &str = "carbon monoxide, fire, burns";
pub const SUN: &str = "live whenever light falls on it";
pub const HEAVY: &str = "becomes a missile in a crash";
pub const RESTRAINT: &str = "restraint";
pub const MANAGEMENT: &str = "management that cuts";
pub const SEALED: &str = "flame sealed from the air that people breathe";
pub const RCD: &str = "residual current device";
pub const EARTHED: &str = "earth bond";
pub const NOTHING_SAID: &str = "nothing is said";
pub const NOTE_HEAVY: &str = "Listed as heavy: what weighs 10 kg or more (chosen).";
pub const NOTHING: &str = "nothing that could hurt somebody is described";
