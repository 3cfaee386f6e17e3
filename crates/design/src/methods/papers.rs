//! Certificates, and what labels of heaters name.

use super::{heat, no_solution, parts};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use vocabulary::{FactId, fact as f, kind};

fn certificates(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let list = reader.build().of_kind(kind::CERTIFICATE);
    Ok(parts(list.members.iter().copied(), list.complete))
}

fn past_its_date(reader: &mut Reader<'_>, certificate: PartId, case: CaseId) -> Outcome {
    super::gas::pieces::past(reader, certificate, f::certificate::DUE, case)
}

fn freezing_nights(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    heat::freezing_night(reader, case).map(Fact::Flag)
}

fn said(reader: &Reader<'_>, part: PartId, fact: FactId) -> Outcome {
    super::is_said(reader, part, fact).map(Fact::Flag)
}

fn approval_said(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    said(reader, heater, f::heater::APPROVAL)
}

fn mattress_labelled(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    said(reader, berth, f::berth::MATTRESS_LABEL)
}

fn runs_out(reader: &mut Reader<'_>, certificate: PartId, _: CaseId) -> Outcome {
    said(reader, certificate, f::certificate::DUE)
}

/// What the labels of heaters for liquefied gas in vehicles and boats name.
const MOTION_STANDARD: &str = "624";

fn made_for_motion(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    match reader.fact(heater, f::heater::TESTED_TO, case)? {
        Fact::Text(label) => Ok(Fact::Flag(label.contains(MOTION_STANDARD))),
        _ => no_solution(heater, f::heater::MADE_FOR_MOTION),
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::build::CERTIFICATES, Each(certificates)),
        (f::build::FREEZING_NIGHTS, Each(freezing_nights)),
        (f::certificate::PAST_ITS_DATE, Each(past_its_date)),
        (f::certificate::RUNS_OUT, Each(runs_out)),
        (f::heater::APPROVAL_SAID, Each(approval_said)),
        (f::berth::MATTRESS_LABELLED, Each(mattress_labelled)),
        (f::heater::MADE_FOR_MOTION, Each(made_for_motion)),
    ]
}
