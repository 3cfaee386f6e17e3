//! Which system a part belongs to, for the filter of a packet.

use crate::words;
use design::{Build, PartId};
use vocabulary::{Family, PartKind, kind};

/// A system of the vehicle, as a packet groups its rows.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum System {
    /// Direct current: batteries, panels and what they feed.
    Direct,
    /// Alternating current: shore, boards, outlets, inverters.
    Alternating,
    /// Heat, fuel and cooking.
    Heat,
    /// Water.
    Water,
    /// Gas.
    Gas,
    /// Alarms, exits, extinguishers.
    Safety,
    /// The body: shell, furniture, places.
    Body,
    /// The build as a whole.
    Whole,
}

impl System {
    /// Every one, in order.
    pub const ALL: [Self; 8] =
        [Self::Direct, Self::Alternating, Self::Heat, Self::Water, Self::Gas, Self::Safety, Self::Body, Self::Whole];

    /// Its name in data.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Direct => "direct-current",
            Self::Alternating => "alternating-current",
            Self::Heat => "heat",
            Self::Water => "water",
            Self::Gas => "gas",
            Self::Safety => "safety",
            Self::Body => "body",
            Self::Whole => "whole",
        }
    }

    /// Its name for a reader.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Direct => words::system::DIRECT,
            Self::Alternating => words::system::ALTERNATING,
            Self::Heat => words::system::HEAT,
            Self::Water => words::system::WATER,
            Self::Gas => words::system::GAS,
            Self::Safety => words::system::SAFETY,
            Self::Body => words::system::BODY,
            Self::Whole => words::system::WHOLE,
        }
    }

    /// The system of a part. What belongs to a run goes by the current that it carries.
    pub fn of(build: &Build, part: PartId) -> Self {
        if let Some(run) = build.circuitry().run(part) {
            return if run.alternating { Self::Alternating } else { Self::Direct };
        }
        let mut here = Some(part);
        while let Some(at) = here {
            if let Some(system) = Self::of_kind(build.part(at).kind) {
                return system;
            }
            here = build.part(at).outer;
        }
        Self::Whole
    }

    fn of_kind(of: PartKind) -> Option<Self> {
        Some(match of {
            kind::SHORE
            | kind::INLET
            | kind::CORD
            | kind::AC_BOARD
            | kind::OUTLETS
            | kind::TRANSFER_SWITCH
            | kind::ISOLATING_TRANSFORMER
            | kind::GENERATOR
            | kind::INVERTER
            | kind::INVERTER_CHARGER
            | kind::SUPPLY => Self::Alternating,
            kind::HEATER | kind::COOKER | kind::FAN | kind::ABSORPTION_FRIDGE | kind::PORTABLE_BURNER => Self::Heat,
            kind::TANK
            | kind::PUMP
            | kind::WATER_LINE
            | kind::TOILET
            | kind::BOILER
            | kind::SHOWER
            | kind::WASTE_LINE => Self::Water,
            kind::CYLINDER
            | kind::CARTRIDGE
            | kind::GAS_LINE
            | kind::REGULATOR
            | kind::HOSE
            | kind::VALVE
            | kind::UNION
            | kind::SOLENOID
            | kind::FEEDS => Self::Gas,
            kind::ALARM | kind::EXTINGUISHER | kind::FIRE_BLANKET | kind::EXIT | kind::BREAKAWAY => Self::Safety,
            kind::SHELL | kind::WINDOW | kind::FURNISHING | kind::BERTH | kind::SEAT | kind::ZONE => Self::Body,
            kind::ROUTE | kind::CIRCUIT | kind::WIRE | kind::NETWORK => Self::Direct,
            kind::BUILD | kind::VEHICLE | kind::BRIEF | kind::REVISION | kind::WAIVE | kind::PERSONS | kind::CARGO => {
                Self::Whole
            }
            // Whatever takes or gives current and is none of these stands on direct current.
            other if vocabulary::part(other).family == Family::Thing && is_electrical(other) => Self::Direct,
            _ => return None,
        })
    }
}

fn is_electrical(of: PartKind) -> bool {
    let spec = vocabulary::part(of);
    ["current", "rating", "output", "capacity", "voltage"].iter().any(|name| spec.fact(name).is_some())
}
