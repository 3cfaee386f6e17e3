//! Heat loss of a shell: faces, fresh air, and the published benchmarks for both.

use crate::citation::{Citation, Mark};
use crate::heat::air::volumetric_heat_capacity;
use crate::input::{InputError, need_entries, need_finite, need_not_negative, need_positive, outcome};
use crate::interval::Interval;

/// A face of the shell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Area, m².
    pub area: f64,
    /// Heat transfer, W/(m²·K).
    pub u: Interval,
}

/// Loss through the faces for each kelvin, W/K: the sum of area times heat transfer.
///
/// # Errors
/// No face; an area or a heat transfer below zero.
pub fn transmission_loss(faces: &[Face]) -> Result<Interval, InputError> {
    let mut total = Interval::row(0.0, 0.0);
    for face in need_entries("faces", faces)? {
        need_not_negative("heat transfer of a face", face.u.least())?;
        total = total.plus(face.u.times(need_not_negative("area of a face", face.area)?)?)?;
    }
    Ok(total)
}

/// Mean heat transfer of the shell, W/(m²·K): [`transmission_loss`] over the sum of the areas.
///
/// # Errors
/// No face; a sum of the areas that is not above zero; numbers below zero.
pub fn mean_u_value(faces: &[Face]) -> Result<Interval, InputError> {
    let loss = transmission_loss(faces)?;
    let area = need_positive("area of the faces", faces.iter().map(|face| face.area).sum())?;
    loss.times(1.0 / area)
}

/// Loss with fresh air for each kelvin, W/K: changes of air per second × volume m³ × heat of the air at its temperature K.
/// One change an hour of 14 m³ at 20 °C is 4.7 W/K.
///
/// # Errors
/// A number below zero; a temperature that is not above 0 K.
pub fn ventilation_loss(changes_per_second: f64, volume: f64, air_kelvin: f64) -> Result<f64, InputError> {
    let flow = need_not_negative("air changes", changes_per_second)? * need_not_negative("volume", volume)?;
    outcome("ventilation loss", flow * volumetric_heat_capacity(air_kelvin)?)
}

/// Heat loss, W: loss for each kelvin W/K times the difference K. Nothing is lost to a warmer outside.
///
/// # Errors
/// A loss below zero; a temperature that is not finite.
pub fn heat_loss(loss_per_kelvin: Interval, inside: f64, outside: f64) -> Result<Interval, InputError> {
    need_not_negative("loss for each kelvin", loss_per_kelvin.least())?;
    let difference = need_finite("inside temperature", inside)? - need_finite("outside temperature", outside)?;
    loss_per_kelvin.times(difference.max(0.0))
}

/// 24 CFR 3280.509(a): 0.7 Btu/h for each °F and foot of perimeter, in W/(K·m).
const US_INFILTRATION: f64 = 0.7 * 0.293_071_07 * 1.8 / 0.304_8;

/// Conventional infiltration loss of a US manufactured home for each kelvin, W/K, by the outside length of its walls m, and its source:
/// 1.21 W/(K·m). It counts fans that run now and then.
///
/// # Errors
/// A length below zero.
pub fn us_infiltration_loss(perimeter: f64) -> Result<(f64, &'static Citation), InputError> {
    static SOURCE: Citation = Citation {
        document: "24 CFR 3280.509(a)",
        place: "infiltration heat loss by perimeter",
        edition: "copy of May 2024",
        mark: Mark::Read,
        address: "https://www.customsmobile.com/regulations/title24_chapterXX_part3280_subpartF_section3280.509",
    };
    let perimeter = need_not_negative("perimeter", perimeter)?;
    Ok((outcome("infiltration loss", US_INFILTRATION * perimeter)?, &SOURCE))
}

/// A published limit of the mean heat transfer of a shell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnvelopeLimit {
    /// The climate zone.
    pub zone: u8,
    /// Greatest mean heat transfer without air, W/(m²·K).
    pub u: f64,
    /// Source; binding for manufactured homes only, a benchmark for vehicles.
    pub citation: &'static Citation,
}

static US_ENVELOPE: Citation = Citation {
    document: "24 CFR 3280.506(b)",
    place: "greatest coefficient by zone: 0.116, 0.096, 0.079 Btu/(h·ft²·°F)",
    edition: "86 FR 2521, 2021",
    mark: Mark::Read,
    address: "https://www.law.cornell.edu/cfr/text/24/3280.506",
};

/// Limits by zone, mildest first.
pub static ENVELOPE_LIMITS: [EnvelopeLimit; 3] = [
    EnvelopeLimit { zone: 1, u: 0.659, citation: &US_ENVELOPE },
    EnvelopeLimit { zone: 2, u: 0.545, citation: &US_ENVELOPE },
    EnvelopeLimit { zone: 3, u: 0.449, citation: &US_ENVELOPE },
];

/// Share of a face that ribs take where a design does not tell it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RibFraction {
    /// Of the walls less windows and doors.
    pub walls: f64,
    /// Of roof and floor.
    pub roof_and_floor: f64,
    /// Source.
    pub citation: Citation,
}

/// Framing of dwellings on wheels, as an assumption for a panel van.
pub static RIB_FRACTION: RibFraction = RibFraction {
    walls: 0.15,
    roof_and_floor: 0.10,
    citation: Citation {
        document: "24 CFR 3280.509(b)",
        place: "framing areas: walls 15 %, floor and ceiling 10 %",
        edition: "copy of May 2024",
        mark: Mark::Read,
        address: "https://www.customsmobile.com/regulations/title24_chapterXX_part3280_subpartF_section3280.509",
    },
};
