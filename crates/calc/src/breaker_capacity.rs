//! Least interrupting capacity of breakers and fuses by the strength of the bank, as US small-craft guidance sets it.

use crate::citation::Citation;
use crate::number::positive;
use crate::tables::small_craft_breakers as table;

/// Least interrupting capacities of a supply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BreakerCapacity {
    /// Of the main breaker, A.
    pub main: f64,
    /// Of a branch breaker, A.
    pub branch: f64,
    /// The table.
    pub citation: &'static Citation,
}

/// Least interrupting capacity by the cold-cranking amperes of all connected batteries (12 and 24 V): small-craft Table V.A. Batteries in
/// parallel add, those in series do not. A fuse ahead may give the capacity instead.
///
/// The table ends with an open row; for large banks see [`large_bank_need`]. `None` for a number that is not positive and finite.
#[must_use]
pub fn breaker_capacity_by_cranking(cold_cranking_amperes: f64) -> Option<BreakerCapacity> {
    if !positive(cold_cranking_amperes) {
        return None;
    }
    let &(_, main, branch) = table::BY_CRANKING.iter().find(|row| cold_cranking_amperes <= row.0)?;
    Some(BreakerCapacity { main, branch, citation: &table::TABLE_V_A })
}

/// Least interrupting capacity on a 120 V shore supply of 30 A or 50 A: small-craft Table V.B. `None` for other ratings.
#[must_use]
pub fn breaker_capacity_on_shore(supply_amperes: f64) -> Option<BreakerCapacity> {
    let &(_, main, branch) = table::BY_SHORE.iter().find(|row| row.0 == supply_amperes)?;
    Some(BreakerCapacity { main, branch, citation: &table::TABLE_V_B })
}

/// What the newer clause asks of a device at a bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LargeBankNeed {
    /// The bank is not large: the tables hold.
    NotLarge,
    /// A device must interrupt this many amperes (the bank's declared short-circuit current).
    Interrupting(f64),
    /// A device must interrupt [`LARGE_BANK_INTERRUPTING`] at [`LARGE_BANK_VOLTS`] or more, direct voltage; the declared short-circuit current is
    /// above [`LARGE_BANK_DECLARED`].
    HighestClass,
    /// The bank is large and its short-circuit current is not declared.
    NotDeclared,
}

/// Where [`large_bank_need`] comes from.
pub static LARGE_BANK: &Citation = &table::LARGE_BANK;

/// A bank above this many cold-cranking amperes is large, A.
pub const LARGE_BANK_CRANKING: f64 = 2_200.0;
/// A bank above this capacity is large, C (500 Ah).
pub const LARGE_BANK_COULOMBS: f64 = 500.0 * 3_600.0;
/// A declared short-circuit current above this may be met by the highest class, A.
pub const LARGE_BANK_DECLARED: f64 = 10_000.0;
/// Interrupting capacity of the highest class, A.
pub const LARGE_BANK_INTERRUPTING: f64 = 20_000.0;
/// Direct voltage at which the highest class must have it, V.
pub const LARGE_BANK_VOLTS: f64 = 125.0;

/// What a device at a bank must interrupt by the clause on large banks ([`LARGE_BANK`]).
///
/// Arguments for the whole bank (parallel batteries added), each `None` where it is not known: cold-cranking amperes A, capacity C, declared
/// short-circuit current A. `None` where neither size is a positive finite number, so that the clause cannot be applied. A declared current
/// that is not positive and finite counts as not declared.
#[must_use]
pub fn large_bank_need(
    cold_cranking_amperes: Option<f64>,
    capacity_coulombs: Option<f64>,
    declared_amperes: Option<f64>,
) -> Option<LargeBankNeed> {
    let cranking = cold_cranking_amperes.filter(|&value| positive(value));
    let capacity = capacity_coulombs.filter(|&value| positive(value));
    let large = cranking.is_some_and(|value| value > LARGE_BANK_CRANKING)
        || capacity.is_some_and(|value| value > LARGE_BANK_COULOMBS);
    if cranking.is_none() && capacity.is_none() {
        return None;
    }
    Some(match declared_amperes.filter(|&value| positive(value)) {
        _ if !large => LargeBankNeed::NotLarge,
        None => LargeBankNeed::NotDeclared,
        Some(declared) if declared > LARGE_BANK_DECLARED => LargeBankNeed::HighestClass,
        Some(declared) => LargeBankNeed::Interrupting(declared),
    })
}
