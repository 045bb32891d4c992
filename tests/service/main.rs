//! The service, tested through its real router on a real SQLite file, and the native program by running it.

mod accounts;
mod additions;
mod at_the_edge;
mod backup;
#[cfg(target_os = "linux")]
mod bodies;
mod command;
mod durability;
mod earlier;
mod forms;
#[cfg(target_os = "linux")]
mod full_disk;
mod hostile;
mod house;
mod installer;
#[cfg(unix)]
mod installers;
mod keeping;
mod openapi;
#[cfg(unix)]
mod operating;
mod pages;
mod papers;
mod photos;
mod privacy;
#[cfg(target_os = "linux")]
mod proxies;
mod rates;
mod receiving;
mod running;
mod serving;
