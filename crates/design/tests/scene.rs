//! Where things stand: by coordinates, at walls, at heights, beside others; and what cannot be placed.

#![allow(clippy::unwrap_used, reason = "a part that is not there fails the test")]

mod support;

use design::{Build, Fact, Gap, PartId, Reader, Scene};
use support::{CASE, build, clean};

const VAN: &str = r#"build Test { basis eu; }
vehicle class=van length="6.0 m" width="2.0 m" front-overhang="1.0 m"
zone cabin kind=living from="1500, -900, 0 mm" size="3000 x 1800 x 1900 mm"
furnishing bench from="1600, -900, 0 mm" size="800 x 500 x 450 mm" material=plywood
"#;

fn called(build: &Build, name: &str) -> PartId {
    build.called(name).next().unwrap().0
}

/// The least and the greatest corner of a thing, in whole millimetres.
fn corners(text: &str) -> Option<[[i64; 3]; 2]> {
    let build = clean(&format!("{VAN}{text}"));
    let scene = Scene::of(&build);
    let shape = scene.shape(called(&build, "thing")).ok()?;
    let millimetres = |corner: [f64; 3]| corner.map(|metres| (metres * 1000.0).round() as i64);
    Some([millimetres(shape.least()), millimetres(shape.most())])
}

#[test]
fn things_stand_by_coordinates_at_walls_at_heights_and_beside_others() {
    let size = r#"size="400 x 300 x 200 mm""#;
    for (place, expected) in [
        (r#"from="2000, 100, 50 mm""#.to_owned() + " " + size, [[2000, 100, 50], [2400, 400, 250]]),
        (r#"at="2000, 100, 50 mm""#.to_owned(), [[2000, 100, 50], [2000, 100, 50]]),
        // Coordinates win over words.
        (r#"at="2000, 100, 50 mm" wall=left raised="1 m""#.to_owned(), [[2000, 100, 50], [2000, 100, 50]]),
        (r#"wall=left along="1.2 m" raised="300 mm" "#.to_owned() + size, [[2700, -900, 300], [3100, -600, 500]]),
        (
            r#"wall=right along="1.2 m" raised="300 mm" zone=cabin "#.to_owned() + size,
            [[2700, 600, 300], [3100, 900, 500]],
        ),
        (
            r#"wall=rear along="100 mm" below-ceiling="150 mm" "#.to_owned() + size,
            [[4100, -800, 1550], [4500, -500, 1750]],
        ),
        (r#"beside=bench toward=rear "#.to_owned() + size, [[2400, -900, 0], [2800, -600, 200]]),
        (r#"beside=bench toward=front "#.to_owned() + size, [[1200, -900, 0], [1600, -600, 200]]),
        (r#"beside=bench toward=right "#.to_owned() + size, [[1600, -400, 0], [2000, -100, 200]]),
        (r#"beside=bench toward=above "#.to_owned() + size, [[1600, -900, 450], [2000, -600, 650]]),
        (r#"beside=bench toward=rear raised="1 m" "#.to_owned() + size, [[2400, -900, 1000], [2800, -600, 1200]]),
    ] {
        assert_eq!(corners(&format!("appliance thing {place}")), Some(expected), "{place}");
    }
}

/// The entries that would give a thing a place.
fn missing(text: &str) -> Vec<&'static str> {
    let build = build(&format!("{VAN}{text}"));
    let gaps = Scene::of(&build).shape(called(&build, "thing")).unwrap_err();
    let names = gaps.0.iter().flat_map(|any| &any.0).filter_map(|gap| match gap {
        Gap::Entry(_, fact) => Some(vocabulary::fact_spec(*fact).name),
        _ => None,
    });
    names.collect()
}

#[test]
fn what_has_no_place_says_what_would_give_it_one() {
    for (text, expected) in [
        ("appliance thing", vec!["from", "at"]),
        ("appliance thing from=unknown", vec!["from"]),
        (r#"appliance thing wall=left raised="300 mm""#, vec!["along"]),
        ("appliance thing beside=bench", vec!["toward"]),
        ("appliance thing beside=box toward=rear\nappliance box", vec!["from", "at"]),
        ("appliance thing beside=box toward=rear\nappliance box beside=thing toward=front", vec!["beside"]),
        (r#"appliance thing from="1600, 0, 0 mm" size=unknown"#, vec!["size"]),
    ] {
        assert_eq!(missing(text), expected, "{text}");
    }
}

#[test]
fn a_height_is_known_where_the_place_is_not() {
    let build = clean(&format!("{VAN}alarm thing senses=smoke wall=left below-ceiling=\"150 mm\" zone=cabin"));
    let mut reader = Reader::new(&build);
    let alarm = called(&build, "thing");
    let Ok(Fact::Number(under)) = reader.fact(alarm, vocabulary::fact::alarm::UNDER_CEILING, CASE) else {
        unreachable!("its height is written");
    };
    assert!((under - 0.15).abs() < 1e-9, "{under}");
}

/// Clear width of the widest way from the bunk, and of the second; in millimetres.
fn widths(furniture: &str) -> [Option<i64>; 2] {
    let build = clean(&format!(
        "{VAN}exit side clear=\"800 x 1600 mm\" at=\"2900, 900, 0 mm\" side=right\n\
         exit rear clear=\"600 x 1600 mm\" at=\"4500, 500, 0 mm\" side=rear\n\
         berth bunk from=\"2600, -900, 400 mm\" size=\"1900 x 700 x 100 mm\"\n{furniture}"
    ));
    let mut reader = Reader::new(&build);
    let bunk = called(&build, "bunk");
    [vocabulary::fact::berth::WAY_WIDTH, vocabulary::fact::berth::SECOND_WAY_WIDTH].map(|fact| {
        match reader.fact(bunk, fact, CASE) {
            Ok(Fact::Number(width)) => Some((width * 1000.0).round() as i64),
            _ => None,
        }
    })
}

#[test]
fn ways_out_are_as_wide_as_the_furniture_leaves_them() {
    assert_eq!(widths(""), [Some(800), Some(600)], "the openings themselves");
    let chest = "furnishing chest from=\"4000, 200, 0 mm\" size=\"300 x 600 x 900 mm\" material=plywood";
    assert_eq!(widths(chest), [Some(800), Some(200)], "between the chest and the frame of the rear door");
    let unknown = "furnishing chest size=\"300 x 600 x 900 mm\" material=plywood";
    assert_eq!(widths(unknown), [None, None], "it may stand anywhere");
}
