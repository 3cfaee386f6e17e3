//! Classes of protective devices: their words in a specification, and what their standards promise.

use crate::citation::Citation;
use crate::tables::{fuse_classes, standard_ratings as ratings};

/// The class of a fuse or breaker. Only generic classes of a standard or of the trade, no maker's names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DeviceClass {
    /// Blade fuse of the common size, ISO 8820-3 type C.
    Blade,
    /// Miniature blade fuse, ISO 8820-3 type F.
    BladeSmall,
    /// High-current blade fuse, ISO 8820-3 type E (that this is the large blade: from memory).
    BladeLarge,
    /// Cartridge with female contacts or bolt-in, ISO 8820-4.
    Cartridge,
    /// Bolted strip, ISO 8820-5.
    Strip,
    /// Terminal-mounted on one bolt, ISO 8820-6.
    SingleBolt,
    /// Bolted flat plate, as used in boats; no standard's rating was seen.
    FlatPlate,
    /// Bolted fuse for high-voltage vehicle systems, ISO 8820-8.
    HighVoltageBoltDown,
    /// UL 248-15 Class T.
    ClassT,
    /// UL 248-2 Class C.
    ClassC,
    /// Bladed contacts, IEC 60269.
    Nh,
    /// Cylindrical contacts, IEC 60269; rating by data sheet.
    Cylindrical,
    /// Glass tube; rating by data sheet.
    GlassTube,
    /// Breaker of IEC 60898-1 (or its residual-current form, IEC 61009): alternating current only.
    Breaker60898,
    /// Breaker of IEC 60898-2, for alternating and direct current; rating by data sheet.
    Breaker60898Direct,
    /// Moulded-case breaker, IEC 60947-2 or UL 489; rating by data sheet.
    BreakerMouldedCase,
    /// Hydraulic-magnetic direct-current breaker; rating by data sheet.
    BreakerDcHydraulicMagnetic,
    /// Thermal direct-current breaker; rating by data sheet.
    BreakerDcThermal,
}

/// What a class promises when the specification gives no rating. `None` is unknown, never zero and never a pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClassRating {
    /// Rated direct voltage, V.
    pub direct_voltage: Option<f64>,
    /// Interrupting rating at that direct voltage, A.
    pub interrupting: Option<f64>,
    /// Rated alternating voltage, V.
    pub alternating_voltage: Option<f64>,
    /// Interrupting rating at that alternating voltage, A.
    pub alternating_interrupting: Option<f64>,
    /// Largest rated current of the class, A.
    pub largest_rating: Option<f64>,
    /// Where the numbers come from, or why there are none.
    pub citation: &'static Citation,
}

impl DeviceClass {
    /// Every class, in the order of the manual.
    pub const ALL: [DeviceClass; 18] = [
        DeviceClass::Blade,
        DeviceClass::BladeSmall,
        DeviceClass::BladeLarge,
        DeviceClass::Cartridge,
        DeviceClass::Strip,
        DeviceClass::SingleBolt,
        DeviceClass::FlatPlate,
        DeviceClass::HighVoltageBoltDown,
        DeviceClass::ClassT,
        DeviceClass::ClassC,
        DeviceClass::Nh,
        DeviceClass::Cylindrical,
        DeviceClass::GlassTube,
        DeviceClass::Breaker60898,
        DeviceClass::Breaker60898Direct,
        DeviceClass::BreakerMouldedCase,
        DeviceClass::BreakerDcHydraulicMagnetic,
        DeviceClass::BreakerDcThermal,
    ];

    /// The word a specification uses.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            DeviceClass::Blade => "blade",
            DeviceClass::BladeSmall => "small-blade",
            DeviceClass::BladeLarge => "large-blade",
            DeviceClass::Cartridge => "cartridge",
            DeviceClass::Strip => "bolt-down",
            DeviceClass::SingleBolt => "single-bolt",
            DeviceClass::FlatPlate => "flat-plate",
            DeviceClass::HighVoltageBoltDown => "high-voltage-bolt-down",
            DeviceClass::ClassT => "T",
            // Not the bare letter: that would be taken for the curve of a breaker.
            DeviceClass::ClassC => "class-C",
            DeviceClass::Nh => "nh",
            DeviceClass::Cylindrical => "cylindrical",
            DeviceClass::GlassTube => "glass",
            DeviceClass::Breaker60898 => "mcb",
            DeviceClass::Breaker60898Direct => "dc-mcb",
            DeviceClass::BreakerMouldedCase => "moulded-case",
            DeviceClass::BreakerDcHydraulicMagnetic => "hydraulic-magnetic",
            DeviceClass::BreakerDcThermal => "thermal",
        }
    }

    /// The class of a specification's word, in upper or lower case; `None` for a word that names no class.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|class| class.word().eq_ignore_ascii_case(word))
    }

    /// True for a fuse, false for a breaker.
    #[must_use]
    pub const fn is_fuse(self) -> bool {
        !matches!(
            self,
            DeviceClass::Breaker60898
                | DeviceClass::Breaker60898Direct
                | DeviceClass::BreakerMouldedCase
                | DeviceClass::BreakerDcHydraulicMagnetic
                | DeviceClass::BreakerDcThermal
        )
    }

    /// True where the class's standard covers alternating current only, so that it says nothing of breaking direct current.
    #[must_use]
    pub const fn is_alternating_only(self) -> bool {
        matches!(self, DeviceClass::Breaker60898)
    }
}

/// The rating that a class's standard gives when the specification gives none.
///
/// Blade and cartridge fuses also exist for 58 V; 32 V holds until the specification says more.
#[must_use]
pub fn class_rating(class: DeviceClass) -> ClassRating {
    match class {
        DeviceClass::Blade | DeviceClass::BladeSmall | DeviceClass::BladeLarge => fuse_classes::BLADE,
        DeviceClass::Cartridge => fuse_classes::CARTRIDGE,
        DeviceClass::Strip => fuse_classes::STRIP,
        DeviceClass::SingleBolt => fuse_classes::SINGLE_BOLT,
        DeviceClass::HighVoltageBoltDown => fuse_classes::HIGH_VOLTAGE_BOLT_DOWN,
        DeviceClass::ClassT => fuse_classes::CLASS_T,
        DeviceClass::ClassC => fuse_classes::CLASS_C,
        DeviceClass::Nh => fuse_classes::NH,
        DeviceClass::Breaker60898 => fuse_classes::ALTERNATING_BREAKER,
        DeviceClass::FlatPlate
        | DeviceClass::Cylindrical
        | DeviceClass::GlassTube
        | DeviceClass::Breaker60898Direct
        | DeviceClass::BreakerMouldedCase
        | DeviceClass::BreakerDcHydraulicMagnetic
        | DeviceClass::BreakerDcThermal => fuse_classes::BY_DATA_SHEET,
    }
}

/// Standard ratings, A, rising: those of NEC 240.6(A), or those that direct-current fuses are commonly sold in.
#[must_use]
pub fn standard_ratings(nec: bool) -> &'static [f64] {
    if nec { &ratings::NEC_RATINGS } else { &ratings::TRADE_RATINGS }
}

/// Where the list of [`standard_ratings`] comes from.
#[must_use]
pub fn standard_ratings_citation(nec: bool) -> &'static Citation {
    if nec { &ratings::NEC } else { &ratings::TRADE }
}

/// The smallest standard rating not below `amperes`, A; `None` above the list and for a number that is not finite.
#[must_use]
pub fn next_standard_rating(nec: bool, amperes: f64) -> Option<f64> {
    if !amperes.is_finite() {
        return None;
    }
    standard_ratings(nec).iter().copied().find(|&rating| rating >= amperes)
}
