//! Left and right.

use crate::input::{InputError, need_entries, need_positive};
use crate::mass::axles::{AxleLayout, Support};
use crate::mass::value::{Bounded, Item, weighted_sum};

/// What each side of the vehicle carries, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideLoads {
    /// Left side.
    pub left: Bounded,
    /// Right side.
    pub right: Bounded,
}

/// Loads of the two sides: half of each mass and its lateral moment over the track m, kg.
///
/// # Errors
/// No item; a track that is not above zero; positions that are not finite.
pub fn side_loads(items: &[Item], track: f64) -> Result<SideLoads, InputError> {
    need_entries("masses", items)?;
    let track = need_positive("track", track)?;
    Ok(SideLoads {
        left: weighted_sum(items, |item| Ok(0.5 - item.at[1] / track))?,
        right: weighted_sum(items, |item| Ok(0.5 + item.at[1] / track))?,
    })
}

/// The wheels of one axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WheelLoads {
    /// The axle.
    pub axle: Support,
    /// What each side of it carries, kg.
    pub sides: SideLoads,
}

/// Loads of the wheels of each axle, kg, by the track m of each axle from front to rear.
///
/// Four wheels share a load in a way that springs and frame decide. Here each mass's moment is shared among the axles as its weight is, as on
/// a frame that twists easily: a stiff frame moves load from side to side. Take it as an estimate and weigh the wheels.
///
/// # Errors
/// No item; another number of tracks than axles; what [`axle_loads`](crate::mass::axle_loads) refuses.
pub fn wheel_loads(layout: &AxleLayout, items: &[Item], tracks: &[f64]) -> Result<Vec<WheelLoads>, InputError> {
    need_entries("masses", items)?;
    let carriers = layout.carriers()?;
    let axles: Vec<_> = carriers.iter().filter(|carrier| matches!(carrier.support, Support::Axle(_))).collect();
    if axles.len() != tracks.len() {
        let (value, wanted) = (tracks.len() as f64, axles.len() as f64);
        return Err(InputError::OutOfRange { quantity: "number of tracks", value, least: wanted, most: wanted });
    }
    let mut wheels = Vec::with_capacity(axles.len());
    for (carrier, track) in axles.into_iter().zip(tracks) {
        let track = need_positive("track", *track)?;
        let left = weighted_sum(items, |item| Ok(carrier.part(item.at[0]) * (0.5 - item.at[1] / track)))?;
        let right = weighted_sum(items, |item| Ok(carrier.part(item.at[0]) * (0.5 + item.at[1] / track)))?;
        wheels.push(WheelLoads { axle: carrier.support, sides: SideLoads { left, right } });
    }
    Ok(wheels)
}
