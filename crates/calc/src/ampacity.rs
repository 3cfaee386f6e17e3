//! Current-carrying capacity from published tables, and the factors for warmth and for company.
//!
//! The tables assume different installations, so that the same copper has different values in each: a result always names its table.

use crate::citation::{Citation, Mark};
use crate::conductor::{ConductorSize, M2_PER_CIRCULAR_MIL, MM2_PER_M2, SAME_AREA, awg_area};
use crate::tables::{
    Row, RowSize, boat_bundling, boat_engine_space, boat_law, bs7671_4d1a, bs7671_4e1a, bs7671_4f1a, bs7671_4f3a,
    bs7671_grouping, nec_310_16, nec_400_5, nec_bundling,
};
use crate::temperature::{SAME_KELVIN, kelvin};

/// A published table of current-carrying capacity, all for 30 °C ambient and copper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AmpacityTable {
    /// 33 CFR 183.425 Table 5: single conductors in free air, by insulation 60 to 200 °C.
    BoatLaw,
    /// BS 7671 Table 4D1A, method B, two cables: 70 °C insulation in conduit or trunking.
    Bs7671MethodB70,
    /// BS 7671 Table 4E1A, method B, two cables: 90 °C insulation in conduit or trunking.
    Bs7671MethodB90,
    /// NEC 310.16: up to three conductors in a raceway or cable, by insulation 60, 75, 90 °C.
    NecRaceway,
    /// BS 7671 Table 4F3A: flexible cords up to 4 mm², 60 °C insulation.
    FlexibleCord,
    /// BS 7671 Table 4F1A: flexible cables from 4 mm², 60 °C insulation.
    FlexibleCable,
    /// NEC 400.5(A)(1): flexible cords with two current-carrying conductors, 60 °C insulation.
    NecFlexibleCord,
}

/// A value out of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct TableValue {
    /// Current-carrying capacity at the table's own ambient temperature, A.
    pub amperes: f64,
    /// The row and how it was chosen, for the working.
    pub row: String,
    /// The table. Where the value was scaled it is marked as computed.
    pub citation: &'static Citation,
    /// True where the size lies below the table and the smallest row was scaled by copper area.
    pub scaled: bool,
}

/// Factor from ambient temperature: the square-root formula that stands behind the published tables.
pub static AMBIENT_FACTOR: Citation = Citation {
    document: "NEC 310.15(B)(1)",
    place: "temperature correction, as IRC Table E3705.2; computed by √((Tc − Ta)/(Tc − Tb)), within 0.01 of every entry",
    edition: "IRC 2021",
    mark: Mark::Computed,
    address: "https://up.codes/s/correction-factor-for-ambient-temperatures",
};

/// Capacity of a copper conductor, A, by the table's own conditions.
///
/// `insulation_kelvin` is the temperature rating of the insulation; a rating between two columns takes the lower one, a rating below
/// the first column has no value. The row is the largest whose copper is not above that of `size` (within 0.5 % it counts as the same
/// row), across the systems of sizes too. Below the smallest row the capacity is scaled with the copper area: thinner conductors
/// cool better for their area, so constant current density is on the safe side. Above the largest row there is no value, and
/// none for an area or temperature that is not a positive finite number.
#[must_use]
pub fn table_ampacity(table: AmpacityTable, size: ConductorSize, insulation_kelvin: f64) -> Option<TableValue> {
    match table {
        AmpacityTable::BoatLaw => look_up(
            &boat_law::COLUMNS,
            &boat_law::ROWS,
            (&boat_law::CITATION, &boat_law::SCALED),
            size,
            insulation_kelvin,
        ),
        AmpacityTable::Bs7671MethodB70 => look_up(
            &bs7671_4d1a::COLUMNS,
            &bs7671_4d1a::ROWS,
            (&bs7671_4d1a::CITATION, &bs7671_4d1a::SCALED),
            size,
            insulation_kelvin,
        ),
        AmpacityTable::Bs7671MethodB90 => look_up(
            &bs7671_4e1a::COLUMNS,
            &bs7671_4e1a::ROWS,
            (&bs7671_4e1a::CITATION, &bs7671_4e1a::SCALED),
            size,
            insulation_kelvin,
        ),
        AmpacityTable::NecRaceway => look_up(
            &nec_310_16::COLUMNS,
            &nec_310_16::ROWS,
            (&nec_310_16::CITATION, &nec_310_16::SCALED),
            size,
            insulation_kelvin,
        ),
        AmpacityTable::FlexibleCord => look_up(
            &bs7671_4f3a::COLUMNS,
            &bs7671_4f3a::ROWS,
            (&bs7671_4f3a::CITATION, &bs7671_4f3a::SCALED),
            size,
            insulation_kelvin,
        ),
        AmpacityTable::FlexibleCable => look_up(
            &bs7671_4f1a::COLUMNS,
            &bs7671_4f1a::ROWS,
            (&bs7671_4f1a::CITATION, &bs7671_4f1a::CITATION),
            size,
            insulation_kelvin,
        ),
        AmpacityTable::NecFlexibleCord => look_up(
            &nec_400_5::COLUMNS,
            &nec_400_5::ROWS,
            (&nec_400_5::CITATION, &nec_400_5::CITATION),
            size,
            insulation_kelvin,
        ),
    }
}

/// Where the column of 60 °C ends for terminals, A (NEC 110.14(C)(1)).
const COOL_TERMINALS_UP_TO: f64 = 100.0;

/// The columns for terminals of up to 100 A and of more, K: 60 °C and 75 °C (NEC 110.14(C)(1)).
const TERMINAL_COLUMNS: [f64; 2] = [333.15, 348.15];

/// What the terminals at the ends of a conductor stand.
static TERMINALS: Citation = Citation {
    document: "NEC 110.14(C)(1)",
    place: "(a), (b)",
    edition: "not stated in the copy seen",
    mark: Mark::SecondHand,
    address: "",
};

/// The most that a copper conductor may carry for the sake of the terminals at its ends, A: the value of NEC 310.16 at 60 °C where
/// that is at most 100 A, else at 75 °C. Terminals that are marked for more are not told apart. `None` for sizes outside the
/// table.
#[must_use]
pub fn terminal_limit(size: ConductorSize) -> Option<(f64, &'static Citation)> {
    let [cool, warm] = TERMINAL_COLUMNS.map(|kelvin| table_ampacity(AmpacityTable::NecRaceway, size, kelvin));
    let (cool, warm) = (cool?.amperes, warm?.amperes);
    Some((if cool <= COOL_TERMINALS_UP_TO { cool } else { warm }, &TERMINALS))
}

fn look_up<const N: usize>(
    columns: &[f64; N],
    rows: &[Row<N>],
    citations: (&'static Citation, &'static Citation),
    size: ConductorSize,
    insulation_kelvin: f64,
) -> Option<TableValue> {
    let area = size.area();
    if !(area.is_finite() && area > 0.0 && insulation_kelvin.is_finite()) {
        return None;
    }
    let (index, column) =
        columns.iter().enumerate().rfind(|&(_, &celsius)| kelvin(celsius) <= insulation_kelvin + SAME_KELVIN)?;
    let column_note = if kelvin(*column) < insulation_kelvin - SAME_KELVIN {
        format!(", {column} °C column")
    } else {
        String::new()
    };

    let smallest = rows.first()?;
    let largest = rows.last()?;
    if area > row_area(largest.size) * (1.0 + SAME_AREA) {
        return None;
    }
    let reached = rows.iter().rfind(|row| row_area(row.size) * (1.0 - SAME_AREA) <= area);
    let Some(row) = reached else {
        let amperes = smallest.amperes.get(index)? * area / row_area(smallest.size);
        let row = format!("{}, scaled by copper area to {}{column_note}", with_area(smallest.size), given(size));
        return Some(TableValue { amperes, row, citation: citations.1, scaled: true });
    };
    let amperes = *row.amperes.get(index)?;
    let same = (area - row_area(row.size)).abs() <= SAME_AREA * row_area(row.size);
    let row = if same {
        format!("{}{column_note}", name(row.size))
    } else {
        format!("{}, nearest row not above {}{column_note}", with_area(row.size), given(size))
    };
    Some(TableValue { amperes, row, citation: citations.0, scaled: false })
}

fn row_area(size: RowSize) -> f64 {
    match size {
        RowSize::Awg(n) => awg_area(n),
        RowSize::Kcmil(kcmil) => kcmil * 1e3 * M2_PER_CIRCULAR_MIL,
        RowSize::Mm2(mm2) => mm2 / MM2_PER_M2,
    }
}

/// The name of a gauge; 0 and below are written 1/0, 2/0 and so on.
fn gauge(n: i8) -> String {
    if n <= 0 { format!("{}/0 AWG", 1 - i16::from(n)) } else { format!("{n} AWG") }
}

fn name(size: RowSize) -> String {
    match size {
        RowSize::Awg(n) => gauge(n),
        RowSize::Kcmil(kcmil) => format!("{kcmil} kcmil"),
        RowSize::Mm2(mm2) => format!("{mm2} mm²"),
    }
}

fn with_area(size: RowSize) -> String {
    match size {
        RowSize::Mm2(_) => name(size),
        RowSize::Awg(_) | RowSize::Kcmil(_) => {
            format!("{} ({} mm²)", name(size), three_figures(row_area(size) * MM2_PER_M2))
        }
    }
}

fn given(size: ConductorSize) -> String {
    match size {
        ConductorSize::Awg(n) => format!("{} ({} mm²)", gauge(n), three_figures(size.area() * MM2_PER_M2)),
        ConductorSize::Area(area) => format!("{} mm²", three_figures(area * MM2_PER_M2)),
    }
}

/// A number to three significant figures without trailing zeros, for the text of a row.
fn three_figures(value: f64) -> String {
    let decimals = if value >= 100.0 {
        0
    } else if value >= 10.0 {
        1
    } else if value >= 1.0 {
        2
    } else {
        3
    };
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Factor for an ambient temperature other than that of the table: √((Tc − Ta)/(Tc − Tb)), all in K.
///
/// Steady heat flow at constant resistance; it gives every entry of [`AMBIENT_FACTOR`]'s table within 0.01. `None` where the ambient or
/// the base temperature is at or above the insulation's, or an argument is not finite. Below the base it is above 1.
#[must_use]
pub fn ambient_factor(insulation_kelvin: f64, ambient_kelvin: f64, base_kelvin: f64) -> Option<f64> {
    let margin = insulation_kelvin - ambient_kelvin;
    let base_margin = insulation_kelvin - base_kelvin;
    let usable = margin.is_finite() && base_margin.is_finite() && margin > 0.0 && base_margin > 0.0;
    usable.then(|| (margin / base_margin).sqrt())
}

/// Factor of the boat table for an engine space (50 °C): 33 CFR 183.425 Table 5 note 1 where it was seen or is remembered and agrees with
/// the formula, else the formula. `None` below a 60 °C rating and for a rating that is not finite.
#[must_use]
pub fn engine_space_factor_boat(insulation_kelvin: f64) -> Option<(f64, &'static Citation)> {
    if !insulation_kelvin.is_finite() || insulation_kelvin < kelvin(60.0) - SAME_KELVIN {
        return None;
    }
    let printed = boat_engine_space::ROWS
        .iter()
        .find(|&&(celsius, _, _)| (kelvin(celsius) - insulation_kelvin).abs() <= SAME_KELVIN);
    if let Some(&(_, factor, citation)) = printed {
        return Some((factor, citation));
    }
    let ambient = kelvin(boat_engine_space::AMBIENT_CELSIUS);
    let base = kelvin(boat_engine_space::BASE_CELSIUS);
    ambient_factor(insulation_kelvin, ambient, base).map(|factor| (factor, &AMBIENT_FACTOR))
}

/// Factor for conductors in one raceway, cable or bundle: NEC 310.15(C)(1). None or up to three: 1.
#[must_use]
pub fn bundling_factor_nec(current_carrying: u32) -> (f64, &'static Citation) {
    (step(&nec_bundling::ROWS, nec_bundling::BEYOND, current_carrying), &nec_bundling::CITATION)
}

/// Factor for bundled boat conductors of circuits **of 50 V and above only**: 33 CFR 183.425 Table 5 note 2. None to two: 1.
/// The same source sets no limit below 50 V, so it may not be cited there.
#[must_use]
pub fn bundling_factor_boat_50v(current_carrying: u32) -> (f64, &'static Citation) {
    (step(&boat_bundling::ROWS, boat_bundling::BEYOND, current_carrying), &boat_bundling::CITATION)
}

fn step(rows: &[(u32, f64)], beyond: f64, count: u32) -> f64 {
    rows.iter().find(|&&(up_to, _)| count <= up_to).map_or(beyond, |&(_, factor)| factor)
}

/// Factor for `circuits` (not conductors) bunched or enclosed together: BS 7671 grouping. None or one: 1.
///
/// Read to ten circuits, remembered to twenty; above that 0.38·√(20/n), which is on the safe side: with equal heat per circuit the
/// rise inside a bundle grows no faster than the number of its circuits.
#[must_use]
pub fn grouping_factor_bs7671(circuits: u32) -> (f64, &'static Citation) {
    let rows = &bs7671_grouping::ROWS;
    if let Some(&(_, factor, citation)) = rows.iter().find(|&&(up_to, _, _)| circuits <= up_to) {
        return (factor, citation);
    }
    let (last, factor) = rows.last().map_or((1, 1.0), |&(up_to, factor, _)| (up_to, factor));
    let share = f64::from(last) / f64::from(circuits);
    (factor * share.sqrt(), &bs7671_grouping::BEYOND)
}
