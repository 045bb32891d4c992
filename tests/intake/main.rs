//! The service, tested through its real router on a real SQLite file.
