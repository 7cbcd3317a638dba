//! The program from outside: what is typed, what comes back, and with which exit status.

mod bad_input;
mod check;
mod commands;
mod curve;
mod export;
mod hostile;
mod probe;
mod sheet;
mod support;
