//! The ledger: how much of everything there is, from the shop to the plate.
//!
//! [`balance`] follows every amount through the phases in the order of the file and says where the
//! sums do not come out. [`scale`] rewrites a cook for another number of people, [`spread_each`]
//! turns times given for each piece into times for all of them.

mod account;
mod balance;
mod collect;
mod counts;
mod cover;
mod divide;
mod each;
mod flow;
mod growth;
mod holding;
mod left;
mod loss;
mod on_hand;
mod prose;
mod scale;
mod serving;
mod stuff;
mod take;

pub use account::{Drawn, FoodAccount, ItemAccount, Ledger, PhaseAccount, Served, ServingTotal};
pub use balance::balance;
pub use each::spread_each;
pub use scale::scale;
pub use stuff::{Stuff, Weight};
