//! A small generator of numbers that are the same on every run.

pub struct Dice(pub u64);

impl Dice {
    pub fn roll(&mut self, low: i64, high: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        low + (self.0 % (high - low + 1) as u64) as i64
    }

    pub fn one_in(&mut self, n: i64) -> bool {
        self.roll(1, n) == 1
    }
}
