//! Pipe threads and British Association threads: those that their standards give as a table.

use super::{Series, Size, Thread};
use crate::engine::quantity::Length;

/// Sources: ISO 228-1 and ISO 7-1 for British pipe, ASME B1.20.1 for American, BS 93 for BA.
pub const SOURCE: &str = "ISO_228 ISO_7 ISO_7_MEM B1_20_1 BS_93";

/// How much the diameter of a taper thread grows along it.
pub const TAPER: f64 = 1.0 / 16.0;

/// A British pipe thread.
struct Bsp {
    /// Nominal bore in 64ths of an inch.
    size: u16,
    major_mm: f64,
    minor_tolerance_mm: f64,
    gauge_length_mm: Option<f64>,
}

/// An American taper pipe thread.
struct Npt {
    /// Nominal bore in 64ths of an inch.
    size: u16,
    outside_in: f64,
    l1_in: f64,
}

include!(concat!(env!("OUT_DIR"), "/pipe_and_ba.rs"));

/// Diameter, pitch and depth in micrometres of a British Association thread.
///
/// # Panics
/// Never for a number below [`ba_count`], which every constructor of a thread asks.
pub(super) fn ba(number: u8) -> (u16, u16, u16) {
    BA[usize::from(number)]
}

pub(super) fn ba_count() -> usize {
    BA.len()
}

/// Outside diameter of a pipe thread.
pub(super) fn outside(series: Series, size: u16) -> Option<Length> {
    match series {
        Series::Npt => Some(Length::inch(npt(size)?.outside_in)),
        Series::G | Series::R => Some(Length::mm(bsp(size)?.major_mm)),
        _ => None,
    }
}

fn bsp(size: u16) -> Option<&'static Bsp> {
    BSP.iter().find(|row| row.size == size)
}

fn npt(size: u16) -> Option<&'static Npt> {
    NPT.iter().find(|row| row.size == size)
}

/// Pitch diameter at the small end: E0 = D - (0.05 D + 1.1) P.
pub(super) fn npt_e0(size: u16, pitch: Length) -> Length {
    let outside = npt(size).map_or(0.0, |row| row.outside_in);
    let pitch = pitch.to_inch();
    Length::inch(outside - (0.05 * outside + 1.1) * pitch)
}

/// Dimensions of an American taper pipe thread, ASME B1.20.1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NptSizes {
    /// Pitch diameter at the small end of the external thread.
    pub e0: Length,
    /// Pitch diameter at the hand-tight plane, the mouth of the internal thread: E0 + L1/16.
    pub e1: Length,
    /// Length of hand-tight engagement.
    pub l1: Length,
    /// Effective length of the external thread: (0.80 D + 6.8) P.
    pub l2: Length,
    /// Minor diameter at the small end: E0 - 0.8 P.
    pub k0: Length,
}

/// Dimensions of a British pipe thread as ISO 228-1 prints them, to 0.001 mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BspSizes {
    /// Major diameter; of a taper thread at the gauge plane.
    pub major: Length,
    /// Pitch diameter.
    pub pitch_diameter: Length,
    /// Least minor diameter of the internal thread.
    pub minor: Length,
    /// Greatest minor diameter of the parallel internal thread.
    pub minor_most: Length,
    /// From the end of a taper thread to its gauge plane.
    pub gauge_length: Option<Length>,
}

impl Thread {
    /// The nominal bore of a pipe thread in 64ths of an inch.
    fn bore(self) -> Option<u16> {
        match self.size {
            Size::SixtyFourths(n) => Some(n),
            _ => None,
        }
    }

    /// An American taper pipe thread by its nominal bore.
    #[must_use]
    pub fn npt(bore: Length) -> Option<Self> {
        Self::pipe(Series::Npt, bore)
    }

    /// A British pipe thread, [`Series::G`] or [`Series::R`], or an American one, by its nominal
    /// bore.
    #[must_use]
    pub fn pipe(series: Series, bore: Length) -> Option<Self> {
        let near = |thread: &Self| {
            thread.series == series
                && thread
                    .bore()
                    .is_some_and(|n| (f64::from(n) / 64.0 - bore.to_inch()).abs() < 1e-6)
        };
        matches!(series, Series::Npt | Series::G | Series::R)
            .then(|| super::all().find(near))
            .flatten()
    }

    /// The dimensions of an American taper pipe thread; nothing for another series.
    #[must_use]
    pub fn npt_sizes(self) -> Option<NptSizes> {
        let row = (self.series == Series::Npt).then(|| npt(self.bore()?)).flatten()?;
        let (e0, l1) = (self.basic_pitch_diameter(), Length::inch(row.l1_in));
        Some(NptSizes {
            e0,
            e1: e0 + l1 * TAPER,
            l1,
            l2: self.pitch() * (0.8 * row.outside_in + 6.8),
            k0: self.basic_minor(),
        })
    }

    /// The dimensions of a British pipe thread; nothing for another series.
    #[must_use]
    pub fn bsp_sizes(self) -> Option<BspSizes> {
        let pipe = matches!(self.series, Series::G | Series::R);
        let row = pipe.then(|| bsp(self.bore()?)).flatten()?;
        let round = |mm: f64| libm::round(mm * 1000.0) / 1000.0;
        let depth = round(self.form().pitch_depth() * self.pitch().to_mm());
        let mm = |x: f64| Length::mm(round(x));
        let minor = row.major_mm - 2.0 * depth;
        Some(BspSizes {
            major: Length::mm(row.major_mm),
            pitch_diameter: mm(row.major_mm - depth),
            minor: mm(minor),
            minor_most: mm(minor + row.minor_tolerance_mm),
            gauge_length: row.gauge_length_mm.map(Length::mm),
        })
    }
}
