//! What must hold for any wall, pipe and vehicle: seeded random cases.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::Interval;
use calc::heat::{self, DuctPath, Face, Metal, Pressing, RibbedLayer, RibbedWall};
use calc::mass::{self, AxleLayout, Evidence, Item, Mass};
use calc::moisture::{self, GlaserLayer};
use calc::water::{self, Insulation, Pump, Route};

const ZERO: f64 = 273.15;
const CASES: usize = 400;

struct Random(fastrand::Rng);

impl Random {
    fn new(seed: u64) -> Self {
        Self(fastrand::Rng::with_seed(seed))
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.0.f64()
    }

    /// Evenly over the powers of ten.
    fn scale(&mut self, least: f64, most: f64) -> f64 {
        self.between(least.ln(), most.ln()).exp()
    }

    fn count(&mut self, most: usize) -> usize {
        self.0.usize(1..=most)
    }
}

fn bounds(random: &mut Random, least: f64, most: f64) -> Interval {
    let value = random.scale(least, most);
    Interval::with_tolerance(value, random.between(0.0, 0.3)).expect("usable numbers")
}

/// More insulation never lets more heat through, nor does a better one; the order of layers does not matter for heat.
#[test]
fn walls_get_better_with_insulation() {
    let mut random = Random::new(1);
    for _ in 0..CASES {
        let layers: Vec<(f64, Interval)> =
            (0..random.count(6)).map(|_| (random.scale(1e-4, 0.2), bounds(&mut random, 0.02, 60.0))).collect();
        let u = |layers: &[(f64, Interval)]| {
            let resistances: Vec<_> =
                layers.iter().map(|(thick, lambda)| heat::layer_resistance(*thick, *lambda).unwrap()).collect();
            heat::u_value(0.13, &resistances, 0.04).unwrap()
        };
        let before = u(&layers);
        assert!(before.least() <= before.most() && before.most() < 1.0 / 0.17 + 1e-9);
        let chosen = random.0.usize(0..layers.len());
        let mut thicker = layers.clone();
        thicker[chosen].0 *= random.between(1.0, 3.0);
        assert!(u(&thicker).least() <= before.least() && u(&thicker).most() <= before.most());
        let mut turned = layers.clone();
        random.0.shuffle(&mut turned);
        let after = u(&turned);
        assert!((after.least() - before.least()).abs() < 1e-12 * before.least());
        assert!((after.most() - before.most()).abs() < 1e-12 * before.most());
    }
}

fn ribbed(random: &mut Random) -> RibbedWall {
    let spacing = random.between(0.2, 0.8);
    let layers = (0..random.count(5))
        .map(|_| RibbedLayer {
            thickness: random.scale(5e-4, 0.08),
            fill: random.scale(0.02, 0.2),
            metal: random.0.bool().then(|| Metal {
                width: random.scale(5e-4, 0.1).min(spacing),
                conductivity: random.scale(15.0, 230.0),
            }),
        })
        .collect();
    RibbedWall { spacing, inner_surface: 0.13, layers, outer_surface: 0.04 }
}

/// The bounds enclose the zone method and the combined method; without ribs all are one; ribs never make a wall better.
#[test]
fn bounds_enclose_the_zone_method() {
    let mut random = Random::new(2);
    for _ in 0..CASES {
        let wall = ribbed(&mut random);
        let found = heat::ribbed_u_value(&wall).unwrap();
        let (least, most) = (found.bounds.least() * (1.0 - 1e-9), found.bounds.most() * (1.0 + 1e-9));
        for estimate in [found.zone, found.combined] {
            assert!((least..=most).contains(&estimate), "{wall:?} {found:?}");
        }
        assert!(found.clear <= found.bounds.least() * (1.0 + 1e-9));
        assert!(found.zone_width <= wall.spacing);
        let plain = RibbedWall {
            layers: wall.layers.iter().map(|layer| RibbedLayer { metal: None, ..*layer }).collect(),
            ..wall.clone()
        };
        let alone = heat::ribbed_u_value(&plain).unwrap();
        assert!((alone.bounds.most() - alone.zone).abs() < 1e-9 && (alone.zone - found.clear).abs() < 1e-9);
        assert!(!alone.combined_outside_scope);
    }
}

/// A thicker cover over the ribs never raises any of the methods; closer ribs never lower the bounds.
#[test]
fn covering_ribs_helps() {
    let mut random = Random::new(3);
    for _ in 0..CASES {
        let mut wall = ribbed(&mut random);
        wall.layers.push(RibbedLayer { thickness: 0.01, fill: 0.035, metal: None });
        let before = heat::ribbed_u_value(&wall).unwrap();
        let mut covered = wall.clone();
        covered.layers.push(RibbedLayer { thickness: random.scale(1e-3, 0.05), fill: 0.035, metal: None });
        let after = heat::ribbed_u_value(&covered).unwrap().bounds;
        assert!(after.least() <= before.bounds.least() && after.most() <= before.bounds.most());
        let widest = wall.layers.iter().filter_map(|layer| layer.metal).map(|metal| metal.width).fold(0.0, f64::max);
        let closer = RibbedWall { spacing: random.between(widest.max(0.05), wall.spacing), ..wall };
        let denser = heat::ribbed_u_value(&closer).unwrap().bounds;
        assert!(denser.least() >= before.bounds.least() * (1.0 - 1e-9), "{closer:?}");
        assert!(denser.most() >= before.bounds.most() * (1.0 - 1e-9), "{closer:?}");
    }
}

/// Pressed wool never holds more than before; loss grows with area; ducts' shares sum to one, and a longer duct takes less.
#[test]
fn wool_faces_and_ducts() {
    let mut random = Random::new(4);
    for _ in 0..CASES {
        let (one, other) = (random.between(0.0, 1.0), random.between(0.0, 1.0));
        for pressing in [Pressing::EvenBatt, Pressing::UnevenBatt, Pressing::UnevenBlown] {
            let kept = |share| heat::resistance_kept(share, pressing).unwrap().0;
            assert!(kept(one.min(other)) <= kept(one.max(other)) + 1e-12 && kept(one) <= 1.0);
        }
        let mut faces: Vec<Face> = (0..random.count(8))
            .map(|_| Face { area: random.between(0.0, 10.0), u: bounds(&mut random, 0.2, 6.0) })
            .collect();
        let before = heat::transmission_loss(&faces).unwrap();
        faces[0].area += 1.0;
        assert!(heat::transmission_loss(&faces).unwrap().least() > before.least());
        let mut ducts: Vec<DuctPath> = (0..random.count(5))
            .map(|_| DuctPath {
                diameter: random.between(0.03, 0.1),
                length: random.between(0.1, 8.0),
                friction: random.between(0.02, 0.08),
                losses: random.between(1.0, 4.0),
            })
            .collect();
        let shares = heat::duct_flow_shares(&ducts).unwrap();
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        ducts[0].length *= 2.0;
        assert!(heat::duct_flow_shares(&ducts).unwrap()[0] <= shares[0]);
    }
}

/// Dew point and saturation are each other's way back; more humid air has a higher dew point, never above the air's own temperature.
#[test]
fn dew_points_go_both_ways() {
    let mut random = Random::new(5);
    for _ in 0..CASES {
        let temperature = ZERO + random.between(-40.0, 60.0);
        let saturated = moisture::saturation_pressure(temperature).unwrap();
        assert!((moisture::dew_point(saturated).unwrap() - temperature).abs() < 1e-9);
        let (one, other) = (random.between(0.05, 1.0), random.between(0.05, 1.0));
        let dew = |humidity| moisture::dew_point(moisture::vapour_pressure(temperature, humidity).unwrap()).unwrap();
        assert!(dew(one.min(other)) <= dew(one.max(other)) && dew(one) <= temperature + 1e-9);
        // More fresh air never makes the room more humid when outside is drier.
        let outside = moisture::vapour_pressure(ZERO, 0.5).unwrap();
        let (few, many) = (random.scale(1e-4, 1e-2), random.scale(1e-4, 1e-2));
        let room = |flow| moisture::inside_vapour_pressure(ZERO, outside, 2e-5, flow, ZERO + 18.0).unwrap();
        assert!(room(few.max(many)) <= room(few.min(many)));
    }
}

fn glaser_layers(random: &mut Random) -> Vec<GlaserLayer> {
    (0..random.count(5) + 1)
        .map(|_| GlaserLayer { resistance: random.scale(1e-4, 3.0), vapour_thickness: random.scale(1e-2, 500.0) })
        .collect()
}

/// Vapour pressure never stands above saturation, water is where vapour comes in faster than it leaves, drier rooms leave less water, and the
/// order of layers changes the water though not the heat.
#[test]
fn water_in_walls() {
    let mut random = Random::new(6);
    let (mut wet, mut changed) = (0, 0);
    for _ in 0..CASES {
        let layers = glaser_layers(&mut random);
        let outside = ZERO + random.between(-20.0, 5.0);
        let outside = (outside, moisture::vapour_pressure(outside, 0.85).unwrap());
        let inside = |humidity| (ZERO + 18.0, moisture::vapour_pressure(ZERO + 18.0, humidity).unwrap());
        let reckon = |layers: &[GlaserLayer], humidity| {
            moisture::glaser(layers, (0.04, 0.13), outside, inside(humidity)).unwrap()
        };
        let found = reckon(&layers, 0.6);
        for (pressure, saturation) in found.vapour_pressures.iter().zip(&found.saturation_pressures) {
            assert!(*pressure <= saturation * (1.0 + 1e-9), "{layers:?} {found:?}");
        }
        assert!(found.condensates.iter().all(|place| place.rate > 0.0 && place.layer < layers.len()));
        assert!(reckon(&layers, 0.4).total_rate() <= found.total_rate() + 1e-18);
        wet += usize::from(!found.condensates.is_empty());
        let turned: Vec<_> = layers.iter().rev().copied().collect();
        let other = reckon(&turned, 0.6).total_rate();
        changed += usize::from((other - found.total_rate()).abs() > 0.1 * found.total_rate().max(1e-12));
    }
    assert!(wet > CASES / 10 && wet < CASES && changed > CASES / 10, "{wet} wet, {changed} changed");
}

/// More flow, more length or less width never takes less pressure; the pump never gives more than its open flow.
#[test]
fn pipes_and_pumps() {
    let mut random = Random::new(7);
    let cold = water::water(ZERO + 10.0).unwrap();
    for _ in 0..CASES {
        let (flow, diameter, length) =
            (random.scale(1e-6, 1e-3), random.between(0.008, 0.03), random.between(0.1, 20.0));
        let lost = |flow, diameter, length| water::friction_loss(flow, diameter, length, 7e-6, 3.0, &cold).unwrap();
        let before = lost(flow, diameter, length);
        let more = random.between(1.0, 3.0);
        for after in [
            lost(flow * more, diameter, length),
            lost(flow, diameter, length * more),
            lost(flow, diameter / more, length),
        ] {
            assert!(after.least() >= before.least() * (1.0 - 1e-9), "{flow} {diameter} {length} {more}");
            assert!(after.most() >= before.most() * (1.0 - 1e-9), "{flow} {diameter} {length} {more}");
        }
        let pump = Pump { open_flow: random.scale(5e-5, 4e-4), cut_out: random.between(1e5, 4e5) };
        let route = Route { diameter, length, roughness: 7e-6, fittings: 2.0, rise: random.between(-1.0, 3.0) };
        let working = water::pump_working_point(&pump, &route, random.scale(1e10, 1e13), &cold).unwrap();
        assert!(working.flow.least() <= working.flow.most() && working.flow.most() <= pump.open_flow);
        let longer = Route { length: length * more, ..route };
        let after = water::pump_working_point(&pump, &longer, 1e12, &cold).unwrap().flow;
        let before = water::pump_working_point(&pump, &route, 1e12, &cold).unwrap().flow;
        assert!(after.most() <= before.most() + 1e-12, "{route:?}");
    }
}

/// More insulation or a milder night never brings frost earlier.
#[test]
fn frost_comes_later_with_insulation() {
    let mut random = Random::new(8);
    for _ in 0..CASES {
        let (capacity, _) = water::tank_contents(random.between(0.02, 0.3)).unwrap();
        let (area, film) = (random.between(0.3, 3.0), random.between(5.0, 25.0));
        let time = |thickness, outside| {
            let loss = water::tank_loss(area, Insulation { thickness, conductivity: 0.035 }, film).unwrap();
            water::seconds_to_freezing_point(capacity, loss, ZERO + 10.0, ZERO + outside).unwrap().unwrap()
        };
        let (thickness, outside) = (random.between(0.0, 0.05), random.between(-25.0, -1.0));
        assert!(time(thickness + 0.01, outside) > time(thickness, outside));
        assert!(time(thickness, outside + 0.5) > time(thickness, outside));
    }
}

fn load(random: &mut Random) -> Vec<Item> {
    (0..random.count(15))
        .map(|_| Item {
            mass: Mass::new(random.scale(0.5, 2_000.0), Some(random.between(0.0, 0.3)), Evidence::Estimated)
                .expect("usable numbers"),
            at: [random.between(-1.0, 7.0), random.between(-1.0, 1.0), random.between(0.2, 3.0)],
        })
        .collect()
}

/// Axles and coupling together carry the mass, in value; sides too; each value lies within its bounds; the order of items does not matter; a
/// random weighing of each item within its tolerance stays within all bounds.
#[test]
fn axle_loads_sum_to_the_mass() {
    let mut random = Random::new(9);
    for _ in 0..CASES {
        let mut items = load(&mut random);
        let first = random.between(2.0, 4.5);
        let first_share = random.between(0.0, 1.0);
        let layout = match random.0.u8(0..4) {
            0 => AxleLayout::TwoAxles { front: 0.0, rear: first },
            1 => AxleLayout::FrontAndTandem { front: 0.0, first, second: first + 0.9, first_share },
            2 => AxleLayout::Trailer { coupling: 0.0, axle: first },
            _ => AxleLayout::TandemTrailer { coupling: 0.0, first, second: first + 0.9, first_share },
        };
        let loads = mass::axle_loads(&layout, &items).unwrap();
        let total = loads.total.value;
        let sum: f64 = loads.supports.iter().map(|support| support.load.value).sum();
        assert!((sum - total).abs() < 1e-9 * total);
        let sides = mass::side_loads(&items, 1.8).unwrap();
        assert!((sides.left.value + sides.right.value - total).abs() < 1e-9 * total);
        let gravity = mass::centre_of_gravity(&items).unwrap();
        // Moments about x = 0.
        let moment: f64 = loads.supports.iter().map(|support| support.load.value * support.position).sum();
        assert!((moment - total * gravity.x.value).abs() < 1e-6 * total);

        let weighing: Vec<Item> = items
            .iter()
            .map(|item| {
                let bounds = item.mass.bounds();
                let weighed = random.between(bounds.least(), bounds.most());
                Item { mass: Mass::new(weighed, Some(0.0), Evidence::Measured).unwrap(), at: item.at }
            })
            .collect();
        let real = mass::axle_loads(&layout, &weighing).unwrap();
        let within = |bounds: Interval, value: f64| {
            value >= bounds.least() - 1e-9 * total && value <= bounds.most() + 1e-9 * total
        };
        for (support, weighed) in loads.supports.iter().zip(&real.supports) {
            assert!(within(support.load.bounds, support.load.value) && within(support.load.bounds, weighed.load.value));
        }
        let centre = mass::centre_of_gravity(&weighing).unwrap();
        for (reckoned, weighed) in [(gravity.x, centre.x), (gravity.y, centre.y), (gravity.z, centre.z)] {
            assert!(within(reckoned.bounds, weighed.value), "{reckoned:?} {weighed:?}");
        }
        random.0.shuffle(&mut items);
        let again = mass::axle_loads(&layout, &items).unwrap();
        for (one, other) in loads.supports.iter().zip(&again.supports) {
            assert!((one.load.value - other.load.value).abs() < 1e-9 * total);
        }
    }
}

/// What an option adds to each axle is the difference of the sums with and without it.
#[test]
fn options_add_up() {
    let mut random = Random::new(10);
    for _ in 0..CASES {
        let mut items = load(&mut random);
        let layout = AxleLayout::TwoAxles { front: 0.0, rear: 3.5 };
        let before = mass::axle_loads(&layout, &items).unwrap();
        let x = random.between(-1.0, 6.0);
        let option = Mass::new(50.0, Some(0.0), Evidence::DataSheet).unwrap();
        let effect = mass::option_effect(&layout, option, x).unwrap();
        items.push(Item { mass: option, at: [x, 0.0, 1.0] });
        let after = mass::axle_loads(&layout, &items).unwrap();
        for ((old, new), added) in before.supports.iter().zip(&after.supports).zip(&effect) {
            assert!((new.load.value - old.load.value - added.load.value).abs() < 1e-9);
        }
    }
}
