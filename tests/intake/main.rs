//! The service, tested through its real router on a real SQLite file, and the native program by running it.

mod command;
mod durability;
mod hostile;
mod house;
mod installer;
mod pages;
mod photos;
mod privacy;
mod receiving;
mod serving;
