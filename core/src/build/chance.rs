//! Seeded chance for simulations: the same draws on every machine.

use std::f64::consts::TAU;

use crate::plain::plain;

/// How a dimension is spread inside its ±.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Bell-shaped; the ± is three standard deviations.
    Normal,
    /// Every value inside the ± as likely as any other.
    Uniform,
    /// Most likely in the middle, falling off straight to nothing at the ±.
    Triangular,
}

plain!(Shape: Normal = "normal", Uniform = "uniform", Triangular = "triangular");

impl Shape {
    /// All of them.
    pub const ALL: [Shape; 3] = [Shape::Normal, Shape::Uniform, Shape::Triangular];
}

/// A stream of random numbers: SplitMix64 (G. Steele, D. Lea, C. Flood, "Fast splittable pseudorandom number
/// generators", OOPSLA 2014, from memory).
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    /// The stream of a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number from 0 up to, not including, 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        // The 53 bits that a number between ½ and 1 has.
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A draw from the normal distribution of mean 0 and standard deviation 1, by Box and Muller.
    pub fn normal(&mut self) -> f64 {
        let (one, other) = (1.0 - self.share(), self.share());
        (-2.0 * one.ln()).sqrt() * (TAU * other).cos()
    }

    /// A draw of the given shape with a ± of 1.
    pub fn draw(&mut self, shape: Shape) -> f64 {
        match shape {
            Shape::Normal => self.normal() / 3.0,
            Shape::Uniform => 2.0 * self.share() - 1.0,
            Shape::Triangular => self.share() - self.share(),
        }
    }
}
