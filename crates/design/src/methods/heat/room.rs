//! A whole space for people: its faces and windows, and what it loses on the coldest night.

use super::shell::{self, FaceOf, Through};
use super::{FREEZING, listed, whole};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::space::{self, Space};
use crate::methods::{air, brief, celsius, fact_of, no_solution, show};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::Interval;
use calc::heat::Face;
use quantity::Dimension;
use vocabulary::{PartKind, fact as f, fact::brief as b, fact::zone as z, kind};

/// Fresh air where nobody says it: one change an hour, 1/s (chosen: vented vehicles have one to two).
const ASSUMED_CHANGE: f64 = 1.0 / 3_600.0;

/// Mild weather for heaters that cannot burn low, K: 5 °C (chosen).
const MILD: f64 = FREEZING + 5.0;

/// The whole spaces for people, in the order of the text; the reader remembers them.
pub fn living_spaces(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    (*reader.living_spaces(case)).clone()
}

/// Finds the whole spaces for people.
pub fn find_living_spaces(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let zones = reader.build().of_kind(kind::ZONE).clone();
    if !zones.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    let mut found = Vec::new();
    for &zone in zones.members.iter() {
        if whole(reader, zone, case)? {
            found.push(zone);
        }
    }
    Ok(found)
}

/// The whole space for people that a face, a window or a heater belongs to: the only one there is, else that in which it stands.
pub fn space_of(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<PartId>> {
    let spaces = living_spaces(reader, case)?;
    let zone = fact_of(reader.build(), part, "zone");
    let silent = zone.is_none_or(|zone| reader.silent(part, zone));
    if let ([only], true) = (&spaces[..], silent) {
        return Ok(Some(*only));
    }
    if spaces.is_empty() {
        return Ok(None);
    }
    let own = match space::of(reader, part, case)? {
        Space::Zone(own) => own,
        Space::Outside => return Ok(None),
    };
    for one in spaces {
        if air::within(reader, own, one, case)? {
            return Ok(Some(one));
        }
    }
    Ok(None)
}

/// Whether a part belongs to a space for people.
pub fn belongs(reader: &mut Reader<'_>, part: PartId, zone: PartId, case: CaseId) -> Outcome<bool> {
    Ok(space_of(reader, part, case)? == Some(zone))
}

/// The parts of a kind that belong to a space.
pub fn of_space(reader: &mut Reader<'_>, kind: PartKind, zone: PartId, case: CaseId) -> (Vec<PartId>, Gaps) {
    let all = reader.build().of_kind(kind).clone();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    if !all.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    for &part in all.members.iter() {
        match belongs(reader, part, zone, case) {
            Ok(true) => found.push(part),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    (found, gaps)
}

fn shells(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = of_space(reader, kind::SHELL, zone, case);
    listed(found, &gaps)
}

fn panes(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = of_space(reader, kind::WINDOW, zone, case);
    listed(found, &gaps)
}

/// Whether a face says anything of the heat that passes it.
fn told(reader: &Reader<'_>, shell: PartId) -> bool {
    let part = reader.build().part(shell);
    part.given(f::shell::U).is_some() || part.inside.iter().any(|inner| reader.build().part(*inner).kind == kind::LAYER)
}

/// Whether any face of a space tells its layers.
pub fn layered(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<bool> {
    let (found, gaps) = of_space(reader, kind::SHELL, zone, case);
    if found.iter().any(|shell| told(reader, *shell)) {
        return Ok(true);
    }
    let unread = found.iter().find(|shell| !reader.build().inside(**shell, kind::LAYER).complete);
    match unread {
        Some(unread) => Err(Gaps::one(Gap::Unread(*unread))),
        None if gaps.is_empty() => Ok(false),
        None => Err(gaps),
    }
}

fn heat_asked(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if !whole(reader, zone, case)? || !super::winter_nights(reader, case)? || !layered(reader, zone, case)? {
        return Ok(Fact::Flag(false));
    }
    let heaters = reader.parts(zone, z::SPACE_HEATERS, case);
    if heaters.members.is_empty() && !heaters.complete {
        return Err(reader.gaps(zone, z::SPACE_HEATERS, case));
    }
    Ok(Fact::Flag(!heaters.members.is_empty()))
}

fn heat_told(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.need_flag(zone, z::HEAT_ASKED, case)? && reader.need_flag(zone, z::SHELL_WHOLE, case)?))
}

/// The faces that a space cannot do without.
const NEEDED: [(FaceOf, &str); 3] = [(FaceOf::Roof, "roof"), (FaceOf::Wall, "walls"), (FaceOf::Floor, "floor")];

/// Which faces of a space are described.
fn faces(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Vec<FaceOf>> {
    let (found, mut gaps) = of_space(reader, kind::SHELL, zone, case);
    let mut faces = Vec::new();
    for one in found {
        match shell::face(reader, one, case) {
            Ok(face) => faces.push(face),
            Err(more) => gaps.add(&more),
        }
    }
    // What is not known may be what is missing.
    let missing = NEEDED.iter().any(|(face, _)| !faces.contains(face)) || !faces.contains(&FaceOf::Cab);
    if gaps.is_empty() || !missing { Ok(faces) } else { Err(gaps) }
}

fn untold_faces(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let told = faces(reader, zone, case)?;
    let words: Vec<&str> = NEEDED.iter().filter(|(face, _)| !told.contains(face)).map(|(_, word)| *word).collect();
    Ok(Fact::Text(words.join(", ").into()))
}

fn shell_whole(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let told = faces(reader, zone, case)?;
    Ok(Fact::Flag(NEEDED.iter().all(|(face, _)| told.contains(face))))
}

/// Whether what parts it from the cab is described; only a van has a cab that is open to the space behind it.
fn cab_told(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    match reader.build().only(kind::VEHICLE) {
        Some(vehicle) if reader.need_word(vehicle, f::vehicle::CLASS, case)? != "van" => return Ok(Fact::Flag(true)),
        Some(_) => {}
        None => return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE))),
    }
    Ok(Fact::Flag(faces(reader, zone, case)?.contains(&FaceOf::Cab)))
}

fn inside_volume(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    match reader.fact(zone, z::SIZE, case)? {
        Fact::Lengths(size) => Ok(Fact::Number(size.iter().product())),
        _ => no_solution(zone, z::INSIDE_VOLUME),
    }
}

fn air_reckoned(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if !reader.silent(zone, z::FRESH_AIR) {
        return reader.fact(zone, z::FRESH_AIR, case);
    }
    let volume = reader.need(zone, z::INSIDE_VOLUME, case)?;
    let flow = volume * ASSUMED_CHANGE;
    reader.step(|| {
        let text =
            format!("one change an hour of {}: {}", show(volume, Dimension::VOLUME), show(flow, Dimension::FLOW));
        Step::assumed(text, "usual in a vehicle with vents (chosen)")
    });
    Ok(Fact::Number(flow))
}

/// What a space loses for each kelvin, W/K.
struct Loss {
    /// Of what is known: bounds, and what is likely.
    known: Through,
    /// What is not known of the faces and windows that are described.
    gaps: Gaps,
    /// Whether faces are described all round.
    whole: Outcome<()>,
    /// The area of its faces and windows, m².
    area: f64,
}

/// What is missing of the faces of a space.
pub fn whole_faces(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<()> {
    match reader.need_flag(zone, z::SHELL_WHOLE, case)? {
        true => Ok(()),
        false => Err(Gaps(vec![AnyOf(vec![Gap::Absent(Build::ROOT, kind::SHELL)])])),
    }
}

/// What a space loses for each kelvin through faces and windows.
fn transmission(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Loss> {
    let wrong = || Gaps::one(Gap::NoSolution(zone, z::HEAT_LOSS));
    let (shells, mut gaps) = of_space(reader, kind::SHELL, zone, case);
    let (windows, more) = of_space(reader, kind::WINDOW, zone, case);
    gaps.add(&more);
    let mut of_faces = Vec::new();
    let (mut likely, mut area) = (0.0, 0.0);
    for one in shells {
        // How each face is worked out stands with the face.
        let through = reader.silently(|reader| shell::through(reader, one, case));
        match both(reader.need(one, f::shell::AREA, case), through) {
            Ok((own, through)) => {
                of_faces.push(Face { area: own, u: through.bounds });
                likely += own * through.likely;
                area += own;
                let title = reader.build().part(one).title.clone();
                reader.step(|| {
                    Step::of(format!(
                        "{title}: {} × {} (between {} and {})",
                        show(own, Dimension::AREA),
                        show(through.likely, Dimension::U_VALUE),
                        show(through.bounds.least(), Dimension::U_VALUE),
                        show(through.bounds.most(), Dimension::U_VALUE)
                    ))
                });
            }
            Err(more) => gaps.add(&more),
        }
    }
    for one in windows {
        match both(reader.need(one, f::window::AREA, case), shell::pane(reader, one, true, case)) {
            Ok((own, u)) => {
                of_faces.push(Face { area: own, u: Interval::exact(u).map_err(|_| wrong())? });
                likely += own * u;
                area += own;
                let title = reader.build().part(one).title.clone();
                reader.step(|| {
                    Step::of(format!("{title}: {} × {}", show(own, Dimension::AREA), show(u, Dimension::U_VALUE)))
                });
            }
            Err(more) => gaps.add(&more),
        }
    }
    let bounds = if of_faces.is_empty() { Interval::exact(0.0) } else { calc::heat::transmission_loss(&of_faces) };
    let known = Through { bounds: bounds.map_err(|_| wrong())?, likely };
    let whole = whole_faces(reader, zone, case);
    Ok(Loss { known, gaps, whole, area })
}

/// What a space loses for each kelvin with fresh air, W/K.
fn with_air(reader: &mut Reader<'_>, zone: PartId, outside: f64, case: CaseId) -> Outcome<f64> {
    let flow = reader.need(zone, z::AIR_RECKONED, case)?;
    match calc::heat::ventilation_loss(flow, 1.0, outside) {
        Ok(loss) => {
            reader.step(|| Step::of(format!("fresh air {}: {loss:.1} W/K", show(flow, Dimension::FLOW))));
            Ok(loss)
        }
        Err(_) => Err(Gaps::one(Gap::Entry(zone, z::FRESH_AIR))),
    }
}

/// Temperatures inside and outside, K.
pub(super) fn on_the_coldest_night(reader: &mut Reader<'_>, case: CaseId) -> Outcome<(f64, f64)> {
    let brief = brief::due(reader)?;
    both(reader.need(brief, b::WARM, case), reader.need(brief, b::COLDEST_NIGHT, case))
}

/// Heat lost, W.
pub(super) struct Lost {
    pub bounds: Interval,
    pub likely: f64,
    /// What is not known of what is described.
    gaps: Gaps,
    /// Whether faces are described all round.
    whole: Outcome<()>,
}

impl Lost {
    /// The bounds and what is likely, of a space of which all is known.
    pub fn all(self) -> Outcome<(Interval, f64)> {
        let mut gaps = self.gaps;
        if let Err(more) = self.whole {
            gaps.add(&more);
        }
        if gaps.is_empty() { Ok((self.bounds, self.likely)) } else { Err(gaps) }
    }
}

/// Heat lost at two temperatures K, W.
pub(super) fn lost(reader: &mut Reader<'_>, zone: PartId, inside: f64, outside: f64, case: CaseId) -> Outcome<Lost> {
    let wrong = |_| Gaps::one(Gap::NoSolution(zone, z::HEAT_LOSS));
    let mut loss = transmission(reader, zone, case)?;
    let air = match with_air(reader, zone, outside, case) {
        Ok(air) => air,
        Err(more) => {
            loss.gaps.add(&more);
            0.0
        }
    };
    let per_kelvin = loss.known.bounds.plus(Interval::exact(air).map_err(wrong)?).map_err(wrong)?;
    let bounds = calc::heat::heat_loss(per_kelvin, inside, outside).map_err(wrong)?;
    let likely = (loss.known.likely + air) * (inside - outside).max(0.0);
    reader.step(|| {
        Step::of(format!(
            "{:.1} W/K ({:.1} to {:.1}) from {} to {}: {}",
            loss.known.likely + air,
            per_kelvin.least(),
            per_kelvin.most(),
            celsius(inside),
            celsius(outside),
            show(likely, Dimension::POWER)
        ))
    });
    Ok(Lost { bounds, likely, gaps: loss.gaps, whole: loss.whole })
}

fn whole_loss(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<(Interval, f64)> {
    let (inside, outside) = on_the_coldest_night(reader, case)?;
    lost(reader, zone, inside, outside, case)?.all()
}

/// The least loss: of what is known where that alone is more than a limit W.
fn known_above(bounds: Interval, gaps: Gaps, limit: Outcome<f64>) -> Outcome {
    if gaps.is_empty() || limit.is_ok_and(|limit| bounds.least() > limit) {
        Ok(Fact::Number(bounds.least()))
    } else {
        Err(gaps)
    }
}

fn heat_loss_at_least(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (inside, outside) = on_the_coldest_night(reader, case)?;
    let lost = lost(reader, zone, inside, outside, case)?;
    let heating = reader.need(zone, z::HEATING, case);
    known_above(lost.bounds, lost.gaps, heating)
}

fn heat_loss_at_most(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(whole_loss(reader, zone, case)?.0.most()))
}

fn heat_loss(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(whole_loss(reader, zone, case)?.1))
}

fn mild_heat_loss(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    let inside = reader.need(brief, b::WARM, case)?;
    Ok(Fact::Number(lost(reader, zone, inside, MILD, case)?.all()?.1))
}

fn mean_u(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let loss = transmission(reader, zone, case)?;
    if !loss.gaps.is_empty() {
        return Err(loss.gaps);
    }
    loss.whole?;
    if loss.area > 0.0 { Ok(Fact::Number(loss.known.likely / loss.area)) } else { no_solution(zone, z::MEAN_U) }
}

fn grade_asked(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    brief::says(reader, b::GRADE)
}

fn grade_loss(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    use calc::heat::{HeatingGrade, grade_demand};
    let brief = brief::due(reader)?;
    let grade = match reader.need_word(brief, b::GRADE, case)? {
        "grade-2" => HeatingGrade::Two,
        _ => HeatingGrade::Three,
    };
    let demand = grade_demand(grade);
    reader.step(|| {
        let text = format!("{} inside at {} outside", celsius(demand.inside), celsius(demand.outside));
        Step::cited(text, demand.citation)
    });
    Ok(Fact::Number(lost(reader, zone, demand.inside, demand.outside, case)?.all()?.0.least()))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::SHELLS, Each(shells)),
        (z::PANES, Each(panes)),
        (z::HEAT_ASKED, Each(heat_asked)),
        (z::HEAT_TOLD, Each(heat_told)),
        (z::UNTOLD_FACES, Each(untold_faces)),
        (z::SHELL_WHOLE, Each(shell_whole)),
        (z::CAB_TOLD, Each(cab_told)),
        (z::INSIDE_VOLUME, Each(inside_volume)),
        (z::AIR_RECKONED, Each(air_reckoned)),
        (z::HEAT_LOSS_AT_LEAST, Each(heat_loss_at_least)),
        (z::HEAT_LOSS_AT_MOST, Each(heat_loss_at_most)),
        (z::HEAT_LOSS, Each(heat_loss)),
        (z::MILD_HEAT_LOSS, Each(mild_heat_loss)),
        (z::MEAN_U, Each(mean_u)),
        (z::GRADE_ASKED, Each(grade_asked)),
        (z::GRADE_LOSS, Each(grade_loss)),
    ]
}
