//! Which method works out which fact. A fact that several part kinds share (by a group of the vocabulary) has one method.

use crate::fact::Outcome;
use crate::known::{CaseId, PartId};
use crate::methods::{
    air, alternator, bank, bars, board, burning, charger, charging, climate, compartment, controller, cost, drop,
    energy, fire, fit, floor, frost, fuel, gas, heat, heavy, holes, in_line, inlet, isolation, limits, mains_drop,
    make, making, mass, measured, modes, moisture, network, opening, order, papers, plan_approval, plumbing, registry,
    restraint, ring, scene, shade, shock, solved, space, starting, supply, support, switching, together, transfer,
    ventilation, water, week, window,
};
use crate::methods::{ampacity, battery, conductor, device, flow, load, place, run, run_end, solar, system, whole};
use crate::reader::Reader;
use std::sync::OnceLock;
use vocabulary::{FactId, fact as f};

/// How a fact is worked out.
#[derive(Clone, Copy)]
pub enum Method {
    /// For one part in one case.
    Each(fn(&mut Reader<'_>, PartId, CaseId) -> Outcome),
}

/// The facts that belong to one part kind.
fn own() -> Bindings {
    use Method::Each;
    vec![
        (f::build::ALARMS, Each(whole::alarms)),
        (f::build::BERTHS, Each(whole::berths)),
        (f::build::HEATERS, Each(whole::heaters)),
        (f::build::BURNERS, Each(whole::burners)),
        (f::build::SLEEPERS, Each(whole::sleepers)),
        (f::build::SYSTEMS, Each(whole::systems)),
        (f::build::SILENT_SYSTEMS, Each(whole::silent_systems)),
        (f::build::BURNS_FUEL, Each(whole::burns_fuel)),
        (f::system::DESCRIBED, Each(system::described)),
        (f::system::DECLARED_ABSENT, Each(system::declared_absent)),
        (f::system::TITLE, Each(system::title)),
        (f::battery::HIGHEST_VOLTAGE, Each(battery::highest_voltage)),
        (f::battery::LOWEST_VOLTAGE, Each(battery::lowest_voltage)),
        (f::battery::RESISTANCE, Each(battery::resistance)),
        (f::battery::RESISTANCE_AT_MOST, Each(battery::resistance_at_most)),
        (f::battery::SHORT_CIRCUIT_CURRENT, Each(battery::short_circuit_current)),
        (f::solar::HIGHEST_VOLTAGE, Each(solar::highest_voltage)),
        (f::solar::SHORT_CIRCUIT_CURRENT, Each(solar::short_circuit_current)),
        (f::inverter::MAINS_VOLTAGE, Each(load::mains_voltage)),
        (f::outlets::LOAD_CURRENT, Each(load::outlets)),
        (f::route::RUNS, Each(place::runs_on_route)),
        (f::route::CURRENT_CARRYING, Each(place::current_carrying)),
        (f::run::TITLE, Each(run::title)),
        (f::run::CURRENT_KIND, Each(run::current_kind)),
        (f::run::PURPOSE, Each(run::purpose)),
        (f::run::ENDS, Each(run::ends)),
        (f::run::CONDUCTORS, Each(run::conductors)),
        (f::run::DEVICES, Each(run::devices)),
        (f::run::DESIGN_CURRENT, Each(flow::design_current)),
        (f::run::AMPACITY, Each(run::ampacity)),
        (f::run::HIGHEST_VOLTAGE, Each(run::highest_voltage)),
        (f::run_end::RUN, Each(run::of_piece)),
        (f::run_end::TITLE, Each(run_end::title)),
        (f::run_end::FED, Each(run_end::fed)),
        (f::run_end::BATTERY_ADJACENT, Each(run_end::battery_adjacent)),
        (f::run_end::HAS_DEVICE, Each(run_end::has_device)),
        (f::run_end::LIMITED_UPSTREAM, Each(run_end::limited_upstream)),
        (f::run_end::UPSTREAM_RATING, Each(run_end::upstream_rating)),
        (f::run_end::DISTANCE_TO_DEVICE, Each(run_end::distance_to_device)),
        (f::run_end::ENCLOSED, Each(run_end::enclosed)),
        (f::run_end::SOURCES, Each(run_end::sources)),
        (f::conductor::RUN, Each(run::of_piece)),
        (f::conductor::AREA, Each(conductor::area)),
        (f::conductor::ONE_WAY, Each(conductor::one_way)),
        (f::conductor::INSULATION, Each(conductor::insulation)),
        (f::conductor::AMBIENT, Each(conductor::ambient)),
        (f::conductor::BUNDLED, Each(conductor::bundled)),
        (f::conductor::AMPACITY, Each(ampacity::ampacity)),
        (f::conductor::TABLE_AMPACITY, Each(ampacity::in_table)),
        (f::conductor::RESISTANCE, Each(conductor::resistance)),
        (f::conductor::PASSES, Each(conductor::passes)),
        (f::conductor::EDGE, Each(conductor::edge)),
        (f::device::RUN, Each(run::of_piece)),
        (f::device::TITLE, Each(device::title)),
        (f::device::CURRENT_KIND, Each(device::current_kind)),
        (f::device::RATING, Each(device::rating)),
        (f::device::CLASS_FROM, Each(device::class_from)),
        (f::device::PROTECTS, Each(device::protects)),
        (f::device::GUARDS_CONDUCTOR, Each(device::guards_conductor)),
        (f::device::PROTECTED_AMPACITY, Each(device::protected_ampacity)),
        (f::device::INTERRUPTING, Each(device::interrupting)),
        (f::device::FAULT_CURRENT, Each(device::fault_current)),
        (f::device::DECISIVE_FAULT_CURRENT, Each(device::decisive_fault_current)),
        (f::device::VOLTAGE, Each(device::voltage)),
        (f::device::CIRCUIT_VOLTAGE, Each(device::circuit_voltage)),
    ]
}

/// The facts that several part kinds share, by name.
fn shared(name: &str) -> Option<Method> {
    match name {
        "standing-zone" => Some(Method::Each(place::standing_zone)),
        "terminal-voltage" => Some(Method::Each(solved::terminal_voltage)),
        "feeds-itself" => Some(Method::Each(ring::feeds_itself)),
        "ring" => Some(Method::Each(ring::ring)),
        "mass-centre" => Some(Method::Each(mass::axle::mass_centre)),
        "rear-share" => Some(Method::Each(mass::axle::rear_share)),
        "load-current" => Some(Method::Each(load::load_current)),
        "fed" => Some(Method::Each(modes::fed)),
        "restrained" => Some(Method::Each(restraint::restrained)),
        "holds-forward" => Some(Method::Each(restraint::holds_forward)),
        "holds-sideways" => Some(Method::Each(restraint::holds_sideways)),
        "holds-pull" => Some(Method::Each(restraint::holds_pull)),
        "moves" => Some(Method::Each(restraint::moves)),
        "crash-forward" => Some(Method::Each(restraint::crash_forward)),
        "crash-sideways" => Some(Method::Each(restraint::crash_sideways)),
        _ => None,
    }
}

/// The facts of one subject with their methods.
pub type Bindings = Vec<(FactId, Method)>;

/// The subjects that keep their own lists.
const SUBJECTS: &[fn() -> Bindings] = &[
    air::bindings,
    alternator::bindings,
    bank::bindings,
    board::bindings,
    bars::bindings,
    burning::bindings,
    charger::bindings,
    charging::bindings,
    climate::bindings,
    controller::bindings,
    cost::bindings,
    drop::bindings,
    energy::bindings,
    fire::bindings,
    floor::bindings,
    frost::bindings,
    fuel::bindings,
    compartment::bindings,
    holes::bindings,
    plumbing::bindings,
    gas::bindings,
    heat::bindings,
    fit::bindings,
    heavy::bindings,
    inlet::bindings,
    in_line::bindings,
    make::bindings,
    making::bindings,
    modes::bindings,
    moisture::bindings,
    mass::bindings,
    measured::bindings,
    window::bindings,
    isolation::bindings,
    limits::bindings,
    mains_drop::bindings,
    network::bindings,
    opening::bindings,
    order::bindings,
    papers::bindings,
    plan_approval::bindings,
    registry::bindings,
    restraint::bindings,
    shade::bindings,
    ring::bindings,
    scene::bindings,
    shock::bindings,
    solar::bindings,
    solved::bindings,
    space::bindings,
    starting::bindings,
    supply::bindings,
    support::bindings,
    together::bindings,
    switching::bindings,
    transfer::bindings,
    ventilation::bindings,
    water::bindings,
    week::bindings,
];

fn table() -> &'static [Option<Method>] {
    static TABLE: OnceLock<Vec<Option<Method>>> = OnceLock::new();
    TABLE.get_or_init(|| {
        let mut table: Vec<Option<Method>> =
            vocabulary::facts().iter().map(|spec| if spec.given { None } else { shared(spec.name) }).collect();
        for (fact, method) in own().into_iter().chain(SUBJECTS.iter().flat_map(|subject| subject())) {
            table[usize::from(fact.0)] = Some(method);
        }
        table
    })
}

/// The method of a worked-out fact.
pub fn method(fact: FactId) -> Option<Method> {
    table().get(usize::from(fact.0)).copied().flatten()
}

/// The worked-out facts of the vocabulary that no method stands behind: none, or the vocabulary and this crate differ.
pub fn unbound_facts() -> Vec<FactId> {
    vocabulary::facts().iter().filter(|spec| !spec.given && method(spec.id).is_none()).map(|spec| spec.id).collect()
}
