//! Published tables, one file each, with the source in the file's head.

pub(crate) mod adiabatic_k;
pub(crate) mod boat_bundling;
pub(crate) mod boat_engine_space;
pub(crate) mod boat_law;
pub(crate) mod bs7671_4d1a;
pub(crate) mod bs7671_4e1a;
pub(crate) mod bs7671_4f1a;
pub(crate) mod bs7671_4f3a;
pub(crate) mod bs7671_grouping;
pub(crate) mod bs7671_reel;
pub(crate) mod cold_capacity;
pub(crate) mod compression;
pub(crate) mod conductivity;
pub(crate) mod contact_resistance;
pub(crate) mod drop_limits;
pub(crate) mod fuse_classes;
pub(crate) mod hydrogen_gas_currents;
pub(crate) mod iec_60228;
pub(crate) mod iec_721_supply_lead;
pub(crate) mod monthly_sun;
pub(crate) mod nec_310_16;
pub(crate) mod nec_400_5;
pub(crate) mod nec_690_7;
pub(crate) mod nec_bundling;
pub(crate) mod nec_chapter9_table8;
pub(crate) mod nec_small_conductors;
pub(crate) mod opening_multiples;
pub(crate) mod sae_gauge;
pub(crate) mod small_craft_breakers;
pub(crate) mod standard_ratings;
pub(crate) mod time_current;

/// How a row of an ampacity table names its size.
#[derive(Debug, Clone, Copy)]
pub(crate) enum RowSize {
    /// American wire gauge.
    Awg(i8),
    /// Thousands of circular mils.
    Kcmil(f64),
    /// Square millimetres.
    Mm2(f64),
}

/// One row: a size and the amperes of each column.
pub(crate) struct Row<const N: usize> {
    pub(crate) size: RowSize,
    pub(crate) amperes: [f64; N],
}

/// Short form for the tables below.
pub(crate) const fn row<const N: usize>(size: RowSize, amperes: [f64; N]) -> Row<N> {
    Row { size, amperes }
}
