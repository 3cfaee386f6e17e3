//! Resistance and heat transfer of a wall of whole layers.

use crate::input::{InputError, need_entries, need_not_negative, outcome};
use crate::interval::Interval;

/// Thermal resistance of a layer, m²·K/W: thickness m over conductivity W/(m·K).
///
/// # Errors
/// A thickness below zero; a conductivity that is not above zero.
pub fn layer_resistance(thickness: f64, conductivity: Interval) -> Result<Interval, InputError> {
    let thickness = need_not_negative("thickness of the layer", thickness)?;
    if conductivity.least() <= 0.0 {
        return Err(InputError::NotPositive { quantity: "conductivity", value: conductivity.least() });
    }
    conductivity.falling(|conductivity| outcome("resistance of the layer", thickness / conductivity))
}

/// Resistance of layers one behind the other, m²·K/W; their order does not matter for heat.
///
/// # Errors
/// No layer; a resistance below zero.
pub fn resistance_of_layers(layers: &[Interval]) -> Result<Interval, InputError> {
    let mut total = Interval::row(0.0, 0.0);
    for layer in need_entries("layers", layers)? {
        need_not_negative("resistance of a layer", layer.least())?;
        total = total.plus(*layer)?;
    }
    Ok(total)
}

/// Heat transfer U of a wall, W/(m²·K): one over the sum of the surface resistances and the layers (ISO 6946). No layer at all is a bare skin
/// whose own resistance is nothing.
///
/// # Errors
/// A resistance below zero; a sum of zero.
pub fn u_value(inner_surface: f64, layers: &[Interval], outer_surface: f64) -> Result<Interval, InputError> {
    let films = need_not_negative("inside surface resistance", inner_surface)?
        + need_not_negative("outside surface resistance", outer_surface)?;
    let mut total = Interval::exact(films)?;
    if !layers.is_empty() {
        total = total.plus(resistance_of_layers(layers)?)?;
    }
    if total.least() <= 0.0 {
        return Err(InputError::NotPositive { quantity: "total resistance", value: total.least() });
    }
    total.falling(|resistance| outcome("heat transfer", 1.0 / resistance))
}
