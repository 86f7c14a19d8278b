//! The migrations, in order. Each stands beside the code of the tables that it makes; a
//! published one is never altered, a later one is added.

use rusqlite_migration::{M, Migrations};

use crate::{import, local, projection, rows, search, summary};

/// Marks the file as ours ("Vwrt").
pub(crate) const APPLICATION_ID: i32 = 0x5677_7274;

const STEPS: &[M<'static>] = &[
    M::up("PRAGMA application_id = 1450668660"),
    M::up(rows::TABLES_1),
    M::up(projection::TABLES_1),
    M::up(search::TABLES_1),
    M::up(local::TABLES_1),
    M::up(import::TABLES_1),
    M::up(summary::TABLES_1),
];

/// The schema number of a file that has seen every migration.
pub(crate) const KNOWN: i64 = STEPS.len() as i64;

pub(crate) const MIGRATIONS: Migrations<'static> = Migrations::from_slice(STEPS);

#[cfg(test)]
mod tests {
    use super::*;

    /// No program ever left a file at one of the first four; it is carried forward all the same.
    #[test]
    fn a_file_at_any_step_is_carried_forward() {
        for step in 0..usize::try_from(KNOWN).unwrap() {
            let mut connection = rusqlite::Connection::open_in_memory().unwrap();
            MIGRATIONS.to_version(&mut connection, step).unwrap();
            MIGRATIONS.to_latest(&mut connection).unwrap();
            let tables: i64 = connection
                .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
                .unwrap();
            let mut fresh = rusqlite::Connection::open_in_memory().unwrap();
            MIGRATIONS.to_latest(&mut fresh).unwrap();
            let of_fresh: i64 = fresh
                .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
                .unwrap();
            assert_eq!(tables, of_fresh, "from {step}");
        }
    }

    #[test]
    fn the_migrations_are_sound_and_mark_the_file() {
        MIGRATIONS.validate().unwrap();
        let mut connection = rusqlite::Connection::open_in_memory().unwrap();
        MIGRATIONS.to_latest(&mut connection).unwrap();
        let mark: i32 = connection
            .pragma_query_value(None, "application_id", |row| row.get(0))
            .unwrap();
        assert_eq!(mark, APPLICATION_ID);
    }
}
