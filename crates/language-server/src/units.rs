//! The units in which a property is written.

use quantity::{Dimension, units};
use vocabulary::FactKind;

/// The units that a value of this kind may be written in, as they are typed.
pub fn of(kind: FactKind) -> Vec<String> {
    match kind {
        FactKind::Quantity(dimension) => of_dimension(dimension),
        FactKind::WireSize | FactKind::Cores => vec!["mm2".to_owned(), "AWG".to_owned()],
        FactKind::Point | FactKind::Box | FactKind::Opening => of_dimension(Dimension::LENGTH),
        _ => Vec::new(),
    }
}

fn of_dimension(dimension: Dimension) -> Vec<String> {
    units().iter().filter(|unit| unit.dimension == dimension).map(|unit| unit.plain_symbol()).collect()
}
