//! Unusable numbers give a typed error in heat, moisture, water and mass; never a panic, never a comfortable answer.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::heat::{self, Derating, DuctPath, Face, Fuel, HeatFlow, HeatingGrade, Metal, RibbedLayer, RibbedWall};
use calc::mass::{self, Anchorage, AxleLayout, Evidence, Item, LoadState, Mass};
use calc::moisture::{self, GlaserLayer};
use calc::water::{self, FilledPipe, Insulation, Pump, Route};
use calc::{InputError, Interval};

const ZERO: f64 = 273.15;

/// A function of one number of its input; the others are sound.
type Probe = (&'static str, fn(f64) -> Result<f64, InputError>);

fn exact(value: f64) -> Interval {
    Interval::exact(value).expect("a finite number")
}

fn some(value: Option<f64>) -> f64 {
    value.unwrap_or(0.0)
}

fn item(x: f64) -> Item {
    Item { mass: Mass::new(100.0, None, Evidence::Measured).expect("usable numbers"), at: [x, 0.0, 1.0] }
}

fn rib(change: impl Fn(&mut RibbedWall)) -> Result<f64, InputError> {
    let metal = Some(Metal { width: 0.002, conductivity: 50.0 });
    let mut wall = RibbedWall {
        spacing: 0.5,
        inner_surface: 0.13,
        layers: vec![RibbedLayer { thickness: 0.04, fill: 0.03, metal }],
        outer_surface: 0.04,
    };
    change(&mut wall);
    heat::ribbed_u_value(&wall).map(|found| found.zone)
}

fn layer(change: impl Fn(&mut RibbedLayer)) -> Result<f64, InputError> {
    rib(|wall| wall.layers.iter_mut().for_each(&change))
}

fn glaser(change: impl Fn(&mut GlaserLayer)) -> Result<f64, InputError> {
    let mut layer = GlaserLayer { resistance: 1.0, vapour_thickness: 1.0 };
    change(&mut layer);
    moisture::glaser(&[layer], (0.04, 0.13), (ZERO, 500.0), (ZERO + 18.0, 1_200.0)).map(|found| found.total_rate())
}

const WATER: water::Water = water::Water { density: 1_000.0, viscosity: 1.3e-3, specific_heat: 4_190.0 };
const DUCT: DuctPath = DuctPath { diameter: 0.06, length: 2.0, friction: 0.05, losses: 1.0 };
const FOAM: Insulation = Insulation { thickness: 0.013, conductivity: 0.036 };
const PIPE: FilledPipe = FilledPipe { outside: 0.015, inside: 0.011, wall_conductivity: 0.4, wall_heat: 2.1e6 };
const ROUTE: Route = Route { diameter: 0.0127, length: 5.0, roughness: 7e-6, fittings: 4.0, rise: 1.0 };
const VAN: AxleLayout = AxleLayout::TwoAxles { front: 0.0, rear: 4.0 };

/// Nothing below zero has a meaning here.
static NEVER_BELOW_ZERO: &[Probe] = &[
    ("layer thickness", |x| heat::layer_resistance(x, exact(0.03)).map(Interval::most)),
    ("layer conductivity", |x| heat::layer_resistance(0.05, Interval::exact(x)?).map(Interval::most)),
    ("layer", |x| heat::u_value(0.13, &[Interval::exact(x)?], 0.04).map(Interval::most)),
    ("inner film", |x| heat::u_value(x, &[exact(1.0)], 0.04).map(Interval::most)),
    ("film temperature", |x| heat::inner_surface_resistance_from(HeatFlow::Upward, 0.9, x)),
    ("emissivity", |x| heat::inner_surface_resistance_from(HeatFlow::Upward, x, ZERO)),
    ("wind", |x| heat::outer_surface_resistance(x, 0.9, ZERO)),
    ("cavity", |x| heat::still_air_cavity(x, HeatFlow::Horizontal).map(|found| found.0)),
    ("pressed", |x| heat::resistance_kept(x, heat::Pressing::EvenBatt).map(|found| found.0)),
    ("foam", heat::polyisocyanurate_factor),
    ("rib spacing", |x| rib(|wall| wall.spacing = x)),
    ("rib film", |x| rib(|wall| wall.inner_surface = x)),
    ("rib layer", |x| layer(|layer| layer.thickness = x)),
    ("rib fill", |x| layer(|layer| layer.fill = x)),
    ("rib width", |x| layer(|layer| layer.metal = Some(Metal { width: x, conductivity: 50.0 }))),
    ("rib metal", |x| layer(|layer| layer.metal = Some(Metal { width: 0.002, conductivity: x }))),
    ("rib share", |x| heat::shared_u_value(exact(0.4), exact(4.0), x).map(Interval::most)),
    ("pane", |x| heat::single_pane_u(x, 0.19, 0.13, 0.04)),
    ("pane conductivity", |x| heat::single_pane_u(0.003, x, 0.13, 0.04)),
    ("gap", |x| heat::pane_gap_coefficient(x, ZERO + 12.0, ZERO, 0.86)),
    ("gap temperature", |x| heat::pane_gap_coefficient(0.016, x, ZERO, 0.86)),
    ("double pane", |x| heat::double_pane_u(x, 0.003, 0.19, 0.17)),
    ("cover", |x| heat::with_cover(2.6, x)),
    ("area", |x| heat::transmission_loss(&[Face { area: x, u: exact(1.0) }]).map(Interval::most)),
    ("face", |x| heat::transmission_loss(&[Face { area: 1.0, u: Interval::exact(x)? }]).map(Interval::most)),
    ("air changes", |x| heat::ventilation_loss(x, 14.0, ZERO)),
    ("air temperature", |x| heat::ventilation_loss(1e-4, 14.0, x)),
    ("loss", |x| heat::heat_loss(Interval::exact(x)?, ZERO + 20.0, ZERO).map(Interval::most)),
    ("perimeter", |x| heat::us_infiltration_loss(x).map(|found| found.0)),
    ("warming power", |x| heat::warm_up_seconds(x, 40.0, 5e5, 35.0).map(some)),
    ("warming loss", |x| heat::warm_up_power(x, 5e5, 35.0, 3_600.0)),
    ("warming capacity", |x| heat::warm_up_power(40.0, x, 35.0, 3_600.0)),
    ("warming time", |x| heat::warm_up_power(40.0, 5e5, 35.0, x)),
    ("warmed", |x| heat::temperature_after(1e3, 40.0, 5e5, 0.0, x)),
    ("contents", |x| heat::heat_capacity(&[(x, 450.0)])),
    ("grade", |x| heat::grade_power(HeatingGrade::Three, x, 5e5)),
    ("heater", |x| heat::heater_at_load(exact(1_000.0), x).map(|_| 0.0)),
    ("heater range", |x| heat::heater_at_load(Interval::exact(x)?, 500.0).map(|_| 0.0)),
    ("reserve", |x| heat::heater_need(exact(1_000.0), x).map(Interval::most)),
    ("fuel heat", |x| heat::fuel_mass_for(Interval::exact(x)?, 0.8, Fuel::Diesel).map(Interval::most)),
    ("fuel efficiency", |x| heat::fuel_volume_for(exact(1e6), x, Fuel::Propane).map(Interval::most)),
    ("electricity", |x| heat::electricity_for(x, 3_600.0, 2, 1e4)),
    ("sun", |x| heat::sol_air_temperature(ZERO + 35.0, 0.3, x, 17.0, true)),
    ("absorptance", |x| heat::sol_air_temperature(ZERO + 35.0, x, 900.0, 17.0, true)),
    ("window sun", |x| heat::solar_gain(x, 0.6, 350.0)),
    ("fresh air", |x| heat::fresh_air_gain(x, (ZERO, 500.0), (ZERO, 500.0)).map(|gain| gain.total())),
    ("duct diameter", |x| heat::path_resistance(&DuctPath { diameter: x, ..DUCT }, 1.2)),
    ("duct length", |x| heat::duct_flow_shares(&[DUCT, DuctPath { length: x, ..DUCT }]).map(|shares| shares[0])),
    ("duct foam", |x| heat::duct_loss_per_kelvin_metre(0.06, x, 0.035, 10.0)),
    ("duct flow", |x| heat::duct_outlet_temperature(ZERO + 80.0, ZERO, 1.0, 2.0, x)),
    ("opening", |x| heat::effective_opening(x, 1e-3)),
    ("stack", |x| heat::stack_flow(1e-3, x, 10.0, ZERO, 0.6)),
    ("cupboard", |x| heat::compartment_temperature(x, 1.0, 1e-3, 0.4, ZERO + 25.0).map(some)),
    ("cupboard walls", |x| heat::compartment_temperature(50.0, x, 1e-3, 0.4, ZERO + 25.0).map(some)),
    ("saturation", moisture::saturation_pressure),
    ("dew point", moisture::dew_point),
    ("humidity", |x| moisture::vapour_pressure(ZERO + 10.0, x)),
    ("vapour", |x| moisture::vapour_density(ZERO, x)),
    ("production", |x| moisture::inside_vapour_pressure(ZERO, 500.0, x, 1e-3, ZERO + 15.0)),
    ("air flow", |x| moisture::inside_relative_humidity(ZERO, 500.0, 1e-5, x, ZERO + 15.0)),
    ("dry limit", |x| moisture::flow_to_keep_dry(ZERO, 500.0, 1e-5, ZERO + 15.0, x).map(some)),
    ("floor", |x| moisture::dwelling_air_flow(x, 1)),
    ("carbon dioxide", |x| moisture::carbon_dioxide_share(x, 1e-3, 420e-6)),
    ("carbon dioxide limit", |x| moisture::flow_for_carbon_dioxide(3e-6, x, 420e-6).map(some)),
    ("flame", |x| moisture::flame_water(x, Fuel::Propane, 1.0).map(Interval::most)),
    ("surface factor", |x| moisture::surface_factor(x, 0.13)),
    ("behind", |x| moisture::surface_factor_of_layers(0.13, x)),
    ("factor", |x| moisture::surface_temperature(x, ZERO + 18.0, ZERO)),
    ("surface humidity", |x| moisture::surface_humidity(x, ZERO)),
    ("humidity limit", |x| moisture::humidity_limit(0.5, ZERO + 18.0, ZERO, x)),
    ("vapour thickness", |x| moisture::vapour_thickness(x, 100.0)),
    ("wall resistance", |x| glaser(|layer| layer.resistance = x)),
    ("wall vapour", |x| glaser(|layer| layer.vapour_thickness = x)),
    ("water", |x| water::water(x).map(|found| found.density)),
    ("pipe flow", |x| water::friction_loss(x, 0.0127, 5.0, 7e-6, 4.0, &WATER).map(Interval::most)),
    ("pipe diameter", |x| water::friction_loss(1e-4, x, 5.0, 7e-6, 4.0, &WATER).map(Interval::most)),
    ("pipe length", |x| water::friction_loss(1e-4, 0.0127, x, 7e-6, 4.0, &WATER).map(Interval::most)),
    ("roughness", |x| water::friction_loss(1e-4, 0.0127, 5.0, x, 4.0, &WATER).map(Interval::most)),
    ("Reynolds", |x| water::friction_factor(x, 1e-4).map(Interval::most)),
    ("Hazen", |x| water::friction_loss_hazen_williams(1e-4, x, 5.0, 150.0, &WATER)),
    ("open flow", |x| working(Pump { open_flow: x, cut_out: 2.8e5 }, 0.0)),
    ("cut-out", |x| working(Pump { open_flow: 1e-4, cut_out: x }, 0.0)),
    ("outlet", |x| working(Pump { open_flow: 1e-4, cut_out: 2.8e5 }, x)),
    ("vessel", |x| water::accumulator_drawdown(x, 1.4e5, 1.7e5, 2.8e5)),
    ("charge", |x| water::accumulator_drawdown(1e-3, x, 1.7e5, 2.8e5)),
    ("filling", |x| water::tank_overpressure(x, 1e-4, 1.5)),
    ("vent", |x| water::least_vent_diameter(3e-4, 1.5, x)),
    ("tank", |x| water::tank_mass(x, 1.0, 8.0, &WATER)),
    ("drain", |x| water::drain_fall(x, 0.02)),
    ("seal", |x| water::trap_seal_when_tilted(x, 0.06, 0.1)),
    ("tank area", |x| water::tank_loss(x, FOAM, 8.0)),
    ("tank contents", |x| water::tank_contents(x).map(|found| found.0)),
    ("pipe inside", |x| water::pipe_resistance(&FilledPipe { inside: x, ..PIPE }, FOAM, 10.0)),
    ("pipe contents", |x| water::pipe_contents(&FilledPipe { outside: x, ..PIPE }).map(|found| found.0)),
    ("frost loss", |x| water::seconds_to_freezing_point(4e5, x, ZERO + 10.0, ZERO - 5.0).map(some)),
    ("ice", |x| water::seconds_to_freeze(100.0, 10.0, ZERO - 5.0, x).map(some)),
    ("holding", |x| water::holding_power(x, ZERO + 2.0, ZERO - 5.0)),
    ("hot volume", |x| water::mixed_volume(x, ZERO + 60.0, ZERO + 10.0, ZERO + 38.0)),
    ("hot flow", |x| water::mixed_temperature(x, ZERO + 60.0, 1.0, ZERO + 10.0)),
    ("recharge", |x| water::recharge_seconds(0.01, ZERO + 10.0, ZERO + 60.0, x, 0.9, 10.0).map(some)),
    ("expansion", |x| water::closed_expansion(0.01, ZERO + 10.0, x)),
    ("scald", |x| water::scald_seconds(x).map(some)),
    ("mass", |x| Mass::new(x, None, Evidence::Measured).map(Mass::value)),
    ("tolerance", |x| Mass::new(10.0, Some(x), Evidence::Measured).map(Mass::value)),
    ("track", |x| mass::side_loads(&[item(1.0)], x).map(|sides| sides.left.value)),
    ("axle track", |x| mass::wheel_loads(&VAN, &[item(1.0)], &[x, 1.8]).map(|found| found[0].sides.left.value)),
    ("state", |x| {
        let stated = mass::StatedItem { item: item(1.0), filling: mass::Filling::Fuel };
        mass::items_in_state(&[stated], &LoadState { fuel: x, ..LoadState::EMPTY }).map(|items| items[0].mass.value())
    }),
    ("tipping", |x| mass::static_stability_factor(1.8, x)),
    ("tilt", |x| mass::static_tilt_angle(x, 0.9, 0.0)),
    ("braking", |x| mass::braking_transfer(3e3, x, 0.9, 3.6)),
    ("lifted", |x| mass::height_from_lifted_axle(3.6, 3e3, 100.0, x, 0.35)),
    ("gross", |x| mass::eu_payload_left(x, 2_900.0, 150.0, 4)),
    ("running order", |x| mass::running_order_bounds(x).map(Interval::most)),
    ("length", |x| mass::eu_minimum_payload(4, x)),
    ("trailer", mass::least_coupling_load_germany),
    ("unloaded", |x| mass::us_occupant_and_cargo_capacity(5e3, x, 20.0)),
    ("cargo", |x| mass::us_least_gross_rating(3e3, x, 4)),
    ("relabel", mass::us_relabel_limit),
    ("held", |x| mass::restraint_force(x, &mass::load_cases()[0]).map(|need| need.forward)),
    ("battery", |x| mass::battery_pull_test(x).map(|found| found.0)),
    ("fixing", |x| mass::fixings_needed(1e3, &Anchorage { capacity: x, safety: 1.5 }).map(f64::from)),
    ("fixings", |x| mass::fixings_needed(x, &Anchorage { capacity: 1e3, safety: 1.5 }).map(f64::from)),
    ("roof", |x| mass::roof_margin(x, &[item(0.0).mass]).map(|margin| margin.value)),
    ("snow", |x| mass::snow_mass(x, 10.0)),
    ("uplift", |x| mass::wind_uplift(1.7, x, 0.8)),
];

/// Positions, differences and Celsius-like numbers of either sign.
static OF_EITHER_SIGN: &[Probe] = &[
    ("inside temperature", |x| heat::heat_loss(exact(40.0), x, ZERO).map(Interval::most)),
    ("start", |x| heat::temperature_after(1e3, 40.0, 5e5, x, 60.0)),
    ("sol-air", |x| heat::transmitted_gain(0.8, 7.0, x, ZERO)),
    ("gains", |x| heat::cooling_load(&[x], &[]).map(|gain| gain.total())),
    ("derating", |x| {
        heat::derated_share(&Derating { full_until: ZERO + 40.0, low_share: 0.5, low_at: ZERO + 60.0 }, x)
    }),
    ("room", |x| moisture::surface_temperature(0.5, x, ZERO)),
    ("rise", |x| water::static_pressure(x, &WATER)),
    ("slope", |x| water::drain_fall(1.0, x)),
    ("lean", |x| water::slope_when_tilted(x, 0.1)),
    ("frost", |x| water::seconds_to_freezing_point(4e5, 10.0, ZERO + 10.0, x).map(some)),
    ("place", |x| mass::axle_loads(&VAN, &[item(x)]).map(|loads| loads.supports[0].load.value)),
    ("height", |x| {
        mass::centre_of_gravity(&[Item { at: [0.0, 0.0, x], ..item(0.0) }, item(1.0)]).map(|found| found.z.value)
    }),
    ("option", |x| mass::option_effect(&VAN, item(0.0).mass, x).map(|effect| effect[1].load.value)),
    ("weighed", |x| mass::weighed(&VAN, &[item(0.0).mass; 2], x).map(|items| items[0].at[2])),
    ("rear", |x| {
        let layout = AxleLayout::TwoAxles { front: 0.0, rear: x };
        mass::axle_loads(&layout, &[item(1.0)]).map(|loads| loads.supports[0].load.value)
    }),
    ("interval", |x| Interval::new(x, x).map(Interval::middle)),
    ("factor", |x| exact(2.0).times(x).map(Interval::most)),
];

fn working(pump: Pump, outlet: f64) -> Result<f64, InputError> {
    water::pump_working_point(&pump, &ROUTE, outlet, &WATER).map(|found| found.flow.most())
}

const NEVER: [f64; 3] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY];
const EXTREME: [f64; 8] = [0.0, -0.0, 5e-324, f64::MIN_POSITIVE, 1e-9, 1e9, 1e300, f64::MAX];

#[track_caller]
fn refused(name: &str, value: f64, answer: Result<f64, InputError>) {
    assert!(answer.is_err_and(|error| !error.to_string().is_empty()), "{name} took {value}: {answer:?}");
}

#[test]
fn numbers_without_a_meaning_are_refused() {
    for (name, probe) in NEVER_BELOW_ZERO {
        for value in NEVER.into_iter().chain([-1.0, -1e-9, -f64::MAX]) {
            refused(name, value, probe(value));
        }
    }
    for (name, probe) in OF_EITHER_SIGN {
        for value in NEVER {
            refused(name, value, probe(value));
        }
    }
}

#[test]
fn extreme_numbers_give_a_finite_answer_or_an_error() {
    for (name, probe) in NEVER_BELOW_ZERO.iter().chain(OF_EITHER_SIGN) {
        for value in EXTREME.into_iter().chain(EXTREME.map(|value| -value)) {
            if let Ok(answer) = probe(value) {
                assert!(answer.is_finite(), "{name} of {value} is {answer}");
            }
        }
    }
}

#[test]
fn empty_lists_are_refused() {
    let empty = |answer: Result<(), InputError>| assert!(matches!(answer, Err(InputError::Empty { .. })), "{answer:?}");
    empty(heat::resistance_of_layers(&[]).map(drop));
    empty(heat::transmission_loss(&[]).map(drop));
    empty(heat::mean_u_value(&[]).map(drop));
    empty(heat::duct_flow_shares(&[]).map(drop));
    empty(heat::heat_capacity(&[]).map(drop));
    empty(rib(|wall| wall.layers.clear()).map(drop));
    empty(moisture::glaser(&[], (0.04, 0.13), (ZERO, 500.0), (ZERO + 18.0, 1_200.0)).map(drop));
    empty(mass::axle_loads(&VAN, &[]).map(drop));
    empty(mass::centre_of_gravity(&[]).map(drop));
    empty(mass::side_loads(&[], 1.8).map(drop));
    empty(mass::items_in_state(&[], &LoadState::EMPTY).map(drop));
    empty(mass::roof_margin(150.0, &[]).map(drop));
}

#[test]
fn numbers_that_contradict_each_other_are_refused() {
    let crossed = |answer: Result<(), InputError>| {
        assert!(matches!(answer, Err(InputError::Crossed { .. } | InputError::OutOfRange { .. })), "{answer:?}");
    };
    crossed(Interval::new(2.0, 1.0).map(drop));
    crossed(mass::axle_loads(&AxleLayout::TwoAxles { front: 4.0, rear: 0.0 }, &[item(1.0)]).map(drop));
    crossed(water::accumulator_drawdown(1e-3, 1e5, 2e5, 1e5).map(drop));
    crossed(water::pipe_contents(&FilledPipe { outside: 0.010, ..PIPE }).map(drop));
    crossed(water::mixed_volume(10.0, ZERO + 40.0, ZERO + 10.0, ZERO + 50.0).map(drop));
    crossed(layer(|layer| layer.metal = Some(Metal { width: 0.6, conductivity: 50.0 })).map(drop));
    let points = Derating { full_until: ZERO + 60.0, low_share: 0.5, low_at: ZERO + 40.0 };
    crossed(heat::derated_share(&points, ZERO).map(drop));
    // Air at 0 °C cannot hold 1,200 Pa.
    let layer = GlaserLayer { resistance: 1.0, vapour_thickness: 1.0 };
    crossed(moisture::glaser(&[layer], (0.04, 0.13), (ZERO, 1_200.0), (ZERO + 18.0, 1_200.0)).map(drop));
}
