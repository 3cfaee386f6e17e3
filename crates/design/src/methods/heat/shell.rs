//! Heat through one face or window: bounds where metal ribs bridge the insulation.
//!
//! The combined method of ISO 6946 is outside its scope there and is not used: the bounds are parallel paths and isothermal planes,
//! between them stands the zone method.

use super::layers::{self, Laid};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{brief, no_solution, show};
use crate::reader::Reader;
use crate::working::Step;
use calc::heat::{HeatFlow, Metal, RibbedLayer, RibbedU, RibbedWall};
use calc::{InputError, Interval};
use quantity::Dimension;
use vocabulary::{fact as f, fact::brief as b, fact::shell as s, fact::window as w, kind};

/// A face of the living space.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FaceOf {
    Roof,
    Wall,
    Floor,
    Door,
    Cab,
}

impl FaceOf {
    fn flow(self) -> HeatFlow {
        match self {
            Self::Roof => HeatFlow::Upward,
            Self::Floor => HeatFlow::Downward,
            Self::Wall | Self::Door | Self::Cab => HeatFlow::Horizontal,
        }
    }
}

/// What a face's name may hold, and what it then is.
const NAMES: [(&str, FaceOf); 9] = [
    ("roof", FaceOf::Roof),
    ("ceiling", FaceOf::Roof),
    ("floor", FaceOf::Floor),
    ("door", FaceOf::Door),
    ("hatch", FaceOf::Door),
    ("cab", FaceOf::Cab),
    ("bulkhead", FaceOf::Cab),
    ("wall", FaceOf::Wall),
    ("side", FaceOf::Wall),
];

/// Which face of the living space a shell is: as said, else by a word of its name.
pub fn face(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome<FaceOf> {
    if reader.silent(shell, s::FACE) {
        let name = reader.build().part(shell).name.clone().unwrap_or_default().to_lowercase();
        let words = || name.split(|letter: char| !letter.is_alphanumeric());
        let found = NAMES.iter().find(|(known, _)| words().any(|word| word.trim_end_matches('s') == *known));
        return found.map(|(_, face)| *face).ok_or_else(|| Gaps::one(Gap::Entry(shell, s::FACE)));
    }
    Ok(match reader.need_word(shell, s::FACE, case)? {
        "roof" => FaceOf::Roof,
        "floor" => FaceOf::Floor,
        "door" => FaceOf::Door,
        "cab" => FaceOf::Cab,
        _ => FaceOf::Wall,
    })
}

/// Heat through a face, W/(m²·K): its bounds and what is likely.
#[derive(Clone, Copy, Debug)]
pub struct Through {
    pub bounds: Interval,
    pub likely: f64,
}

impl Through {
    fn exact(u: f64) -> Result<Self, InputError> {
        Ok(Self { bounds: Interval::exact(u)?, likely: u })
    }

    fn between(bounds: Interval) -> Self {
        Self { bounds, likely: bounds.middle() }
    }
}

/// The temperature in the middle of the shell in the coldest night, K.
fn mean(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let brief = brief::due(reader)?;
    let (warm, night) =
        crate::methods::battery::both(reader.need(brief, b::WARM, case), reader.need(brief, b::COLDEST_NIGHT, case))?;
    Ok(f64::midpoint(warm, night))
}

/// The layers of a face, from the outside in.
pub fn laid(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome<Vec<Laid>> {
    let flow = face(reader, shell, case)?.flow();
    let mean = mean(reader, case);
    layers::of(reader, shell, flow, mean, case)
}

/// How metal stands in the insulation of a face.
pub enum Ribs {
    /// Not at all.
    None,
    /// As drawn.
    Drawn { rib: PartId },
    /// As a share of the area.
    Share { share: f64, assumed: bool },
}

/// The ribs of a face: as drawn, as a share, else by what is usual where its skin is of metal.
pub fn ribs(reader: &mut Reader<'_>, shell: PartId, laid: &[Laid], case: CaseId) -> Outcome<Ribs> {
    let drawn = reader.build().inside(shell, kind::RIB);
    if !drawn.complete {
        return Err(Gaps::one(Gap::Unread(shell)));
    }
    if let Some(rib) = drawn.members.first() {
        return Ok(Ribs::Drawn { rib: *rib });
    }
    if !reader.silent(shell, s::RIBS) {
        let share = reader.need(shell, s::RIBS, case)?;
        return Ok(if share > 0.0 { Ribs::Share { share, assumed: false } } else { Ribs::None });
    }
    if !laid.first().is_some_and(|skin| skin.metal) || !laid.iter().any(|layer| layer.insulates) {
        return Ok(Ribs::None);
    }
    let usual = &calc::heat::RIB_FRACTION;
    let share = match face(reader, shell, case)? {
        FaceOf::Roof | FaceOf::Floor => usual.roof_and_floor,
        _ => usual.walls,
    };
    Ok(Ribs::Share { share, assumed: true })
}

/// The places of the first and the last insulating layer.
fn insulation(laid: &[Laid]) -> Option<(usize, usize)> {
    let first = laid.iter().position(|layer| layer.insulates)?;
    let last = laid.iter().rposition(|layer| layer.insulates)?;
    Some((first, last))
}

/// The insulation that lies between ribs and lining, m.
pub fn over_ribs(reader: &mut Reader<'_>, shell: PartId, laid: &[Laid], case: CaseId) -> Outcome<f64> {
    let whole: f64 =
        insulation(laid).map_or(0.0, |(first, last)| laid[first..=last].iter().map(|layer| layer.thickness).sum());
    let over = match ribs(reader, shell, laid, case)? {
        Ribs::None => return Ok(whole),
        Ribs::Drawn { rib } => whole - reader.need(rib, f::rib::DEPTH, case)?,
        Ribs::Share { .. } => reader.need(shell, s::OVER_RIBS, case)?,
    };
    Ok(over.clamp(0.0, whole))
}

/// The resistance between the face of a rib and the inner surface, m²·K/W: the insulation over it and the lining.
pub fn inside_of_rib(laid: &[Laid], over: f64) -> Result<Interval, InputError> {
    let Some((first, last)) = insulation(laid) else { return Interval::exact(0.0) };
    let mut sum = Interval::exact(0.0)?;
    for layer in laid.iter().skip(last + 1) {
        sum = sum.plus(layer.resistance()?)?;
    }
    let mut left = over;
    for layer in laid[first..=last].iter().rev() {
        let part = left.min(layer.thickness);
        if part > 0.0 {
            sum = sum.plus(calc::heat::layer_resistance(part, layer.conductivity)?)?;
        }
        left -= part;
    }
    Ok(sum)
}

/// Heat through a face, W/(m²·K).
pub fn through(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome<Through> {
    let wrong = |_| Gaps::one(Gap::NoSolution(shell, s::U_LIKELY));
    if !reader.silent(shell, s::U) {
        let u = reader.need(shell, s::U, case)?;
        return Through::exact(u).map_err(wrong);
    }
    let laid = laid(reader, shell, case)?;
    let flow = face(reader, shell, case)?.flow();
    let inner = calc::heat::inner_surface_resistance(flow);
    let outer = calc::heat::SURFACE_RESISTANCE_OUTSIDE;
    reader.step(|| {
        Step::cited(
            format!("surface resistances {inner:.2} inside and {outer:.2} m²K/W outside"),
            &calc::heat::ISO_6946,
        )
    });
    let resistances: Result<Vec<Interval>, InputError> = laid.iter().map(Laid::resistance).collect();
    let clear = resistances.and_then(|all| calc::heat::u_value(inner, &all, outer)).map_err(wrong)?;
    reader.step(|| Step::of(format!("between ribs: {}", bounds(clear))));
    match ribs(reader, shell, &laid, case)? {
        Ribs::None => Ok(Through::between(clear)),
        Ribs::Drawn { rib } => drawn(reader, rib, (&laid, inner, outer), case),
        Ribs::Share { share, assumed } => shared(reader, shell, share, assumed, (&laid, clear, inner, outer), case),
    }
}

/// Bounds of a heat transfer in words.
fn bounds(u: Interval) -> String {
    let word = |value| show(value, Dimension::U_VALUE);
    if u.is_exact() { word(u.least()) } else { format!("{} to {}", word(u.least()), word(u.most())) }
}

/// A face whose ribs are a share of its area.
fn shared(
    reader: &mut Reader<'_>,
    shell: PartId,
    share: f64,
    assumed: bool,
    (laid, clear, inner, outer): (&[Laid], Interval, f64, f64),
    case: CaseId,
) -> Outcome<Through> {
    let wrong = |_| Gaps::one(Gap::NoSolution(shell, s::U_LIKELY));
    let rib_u = |over: f64| {
        let behind = inside_of_rib(laid, over)?;
        calc::heat::u_value(inner, &[behind], outer)
    };
    let (rib, how) = if reader.silent(shell, s::OVER_RIBS) {
        // Covered by all of the insulation at the least, by the lining alone at the most.
        let bare = rib_u(0.0).map_err(wrong)?;
        (Interval::new(clear.least(), bare.most().max(clear.most())).map_err(wrong)?, "nobody says what lies over them")
    } else {
        let over = over_ribs(reader, shell, laid, case)?;
        (rib_u(over).map_err(wrong)?, "over the insulation on them")
    };
    let u = calc::heat::shared_u_value(clear, rib, share).map_err(wrong)?;
    reader.step(|| {
        let text = format!(
            "ribs {} of the area, {how}: {} there, {} in all",
            show(share, Dimension::RATIO),
            bounds(rib),
            bounds(u)
        );
        let step = Step::cited(text, if assumed { &calc::heat::RIB_FRACTION.citation } else { &RibbedU::SCOPE });
        Step { assumed, ..step }
    });
    Ok(Through::between(u))
}

/// The wall with its drawn ribs, with every material at one end of its range.
fn wall(laid: &[Laid], rib: &Rib, surfaces: (f64, f64), end: fn(Interval) -> f64) -> Option<RibbedWall> {
    let (first, last) = insulation(laid)?;
    let mut layers = Vec::new();
    let mut left = rib.depth;
    for (place, layer) in laid.iter().enumerate() {
        let fill = end(layer.conductivity);
        let mut thickness = layer.thickness;
        let plain = |thickness: f64| RibbedLayer { thickness, fill, metal: None };
        if (first..=last).contains(&place) && left > 0.0 {
            let part = left.min(thickness);
            left -= part;
            thickness -= part;
            // The flange is a thin strip at the inner end of the web.
            let ends = left <= 0.0 || place == last;
            let strip = if ends { rib.web.min(part) } else { 0.0 };
            let metal = |width: f64| Some(Metal { width, conductivity: STEEL });
            if part > strip {
                layers.push(RibbedLayer { thickness: part - strip, fill, metal: metal(rib.web) });
            }
            if strip > 0.0 {
                layers.push(RibbedLayer { thickness: strip, fill, metal: metal(rib.flange) });
            }
        }
        if thickness > 0.0 {
            layers.push(plain(thickness));
        }
    }
    Some(RibbedWall { spacing: rib.spacing, inner_surface: surfaces.0, layers, outer_surface: surfaces.1 })
}

/// Conductivity of the steel of ribs, W/(m·K) (prEN 12524, read): aluminium would not change the bounds noticeably.
const STEEL: f64 = 50.0;

/// A rib as drawn, m.
struct Rib {
    spacing: f64,
    depth: f64,
    web: f64,
    flange: f64,
}

/// A face whose ribs are drawn.
fn drawn(
    reader: &mut Reader<'_>,
    part: PartId,
    (laid, inner, outer): (&[Laid], f64, f64),
    case: CaseId,
) -> Outcome<Through> {
    use crate::methods::battery::both;
    use f::rib as r;
    let ((spacing, depth), (web, flange)) = both(
        both(reader.need(part, r::SPACING, case), reader.need(part, r::DEPTH, case)),
        both(reader.need(part, r::WEB, case), reader.need(part, r::FLANGE, case)),
    )?;
    let rib = Rib { spacing, depth, web, flange };
    // Metal wider than its spacing is a slip of the drawing.
    let wrong = |_| super::any_of([(part, r::SPACING), (part, r::FLANGE)]);
    let of = |end: fn(Interval) -> f64| match wall(laid, &rib, (inner, outer), end) {
        Some(wall) => calc::heat::ribbed_u_value(&wall),
        None => calc::heat::u_value(inner, &[], outer).map(|u| RibbedU {
            bounds: u,
            clear: u.least(),
            zone: u.least(),
            zone_width: 0.0,
            combined: u.least(),
            combined_outside_scope: true,
        }),
    };
    let (best, worst) = (of(Interval::least).map_err(wrong)?, of(Interval::most).map_err(wrong)?);
    let all = Interval::new(best.bounds.least(), worst.bounds.most()).map_err(wrong)?;
    let likely = f64::midpoint(best.zone, worst.zone);
    reader.step(|| {
        Step::cited(
            format!(
                "ribs every {}, {} deep: between parallel paths and isothermal planes {}; the combined method is outside its scope",
                show(spacing, Dimension::LENGTH),
                show(depth, Dimension::LENGTH),
                bounds(all)
            ),
            &RibbedU::SCOPE,
        )
    });
    reader.step(|| {
        let text = format!(
            "zone method, {} wide: {}",
            show(worst.zone_width, Dimension::LENGTH),
            show(likely, Dimension::U_VALUE)
        );
        Step::cited(text, &RibbedU::ZONE_METHOD)
    });
    Ok(Through { bounds: all, likely })
}

fn u_at_least(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(through(reader, shell, case)?.bounds.least()))
}

fn u_at_most(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(through(reader, shell, case)?.bounds.most()))
}

fn u_likely(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(through(reader, shell, case)?.likely))
}

/// Whether the skin is of metal and nothing is said of ribs.
fn ribs_open(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome {
    if crate::methods::is_said(reader, shell, s::U)? || !reader.silent(shell, s::RIBS) {
        return Ok(Fact::Flag(false));
    }
    let laid = reader.silently(|reader| laid(reader, shell, case))?;
    Ok(Fact::Flag(matches!(ribs(reader, shell, &laid, case)?, Ribs::Share { assumed: true, .. })))
}

fn in_winter_night(reader: &mut Reader<'_>, shell: PartId, case: CaseId) -> Outcome {
    if !super::night_at_most(reader, super::COLD_NIGHT, case)? {
        return Ok(Fact::Flag(false));
    }
    // What parts it from the cab is no part of the skin.
    Ok(Fact::Flag(face(reader, shell, case)? != FaceOf::Cab && super::room::space_of(reader, shell, case)?.is_some()))
}

/// Heat transfer of usual panes, W/(m²·K): single glass 5.8 and double acrylic 3.0 with its frame (fact book, a page on
/// insulation values and chosen), double glass 3.0 (the same), single acrylic 5.3 (4 mm, computed with the surface resistances
/// of ISO 6946).
const PANES: [(&str, f64); 4] =
    [("single-glass", 5.8), ("double-glass", 3.0), ("single-acrylic", 5.3), ("double-acrylic", 3.0)];

/// Heat through a window at night, W/(m²·K).
pub fn pane(reader: &mut Reader<'_>, window: PartId, covered: bool, case: CaseId) -> Outcome<f64> {
    if covered && !reader.silent(window, w::COVERED_U) {
        return reader.need(window, w::COVERED_U, case);
    }
    if !reader.silent(window, w::U) {
        return reader.need(window, w::U, case);
    }
    if reader.silent(window, w::PANES) {
        return Err(super::any_of([(window, w::U), (window, w::PANES)]));
    }
    let word = reader.need_word(window, w::PANES, case)?;
    let Some((_, u)) = PANES.iter().find(|(panes, _)| *panes == word) else {
        return no_solution(window, w::U_AT_NIGHT);
    };
    reader.step(|| {
        Step::assumed(
            format!("{}: {}", word.replace('-', " "), show(*u, Dimension::U_VALUE)),
            "pages on the insulation of panes (second-hand)",
        )
    });
    Ok(*u)
}

fn u_at_night(reader: &mut Reader<'_>, window: PartId, case: CaseId) -> Outcome {
    pane(reader, window, true, case).map(Fact::Number)
}

fn window_frosty(reader: &mut Reader<'_>, window: PartId, case: CaseId) -> Outcome {
    if !super::night_at_most(reader, super::FREEZING, case)? {
        return Ok(Fact::Flag(false));
    }
    Ok(Fact::Flag(super::room::space_of(reader, window, case)?.is_some()))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (s::U_AT_LEAST, Each(u_at_least)),
        (s::U_AT_MOST, Each(u_at_most)),
        (s::U_LIKELY, Each(u_likely)),
        (s::RIBS_OPEN, Each(ribs_open)),
        (s::IN_WINTER_NIGHT, Each(in_winter_night)),
        (w::U_AT_NIGHT, Each(u_at_night)),
        (w::FROSTY, Each(window_frosty)),
    ]
}
