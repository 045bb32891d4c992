//! The table rows that a figure used.

use super::FigureError;
use crate::TableRow;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use model::tables::about::{Published, Table};

/// Adds a row unless it is there already; adds nothing where the table has no such row.
pub(super) fn add(rows: &mut Vec<TableRow>, table: &Table, at: &str) {
    let Some(found) = (table.rows)().into_iter().find(|row| row.at == at) else { return };
    let row = TableRow {
        table: table.reference(),
        edition: table.publication.edition.to_string(),
        gives: table.gives.to_string(),
        row: found.at,
        value: found.value,
        grade: table.grade.word().to_string(),
        source: table.source.to_string(),
    };
    if !rows.contains(&row) {
        rows.push(row);
    }
}

/// Looks a row up exactly.
///
/// # Errors
/// [`FigureError::NoRow`], which names the rows there are.
pub(super) fn at<K: PartialEq + ToString, V: Copy>(
    key: &'static str,
    column: &Published<K, V>,
    given: K,
) -> Result<V, FigureError> {
    let found = column.rows.iter().find(|(row, _)| *row == given).map(|(_, value)| *value);
    found.ok_or_else(|| none(key, &column.table, given.to_string()))
}

/// The error that a table has no such row.
pub(super) fn none(key: &'static str, table: &Table, given: String) -> FigureError {
    let rows: Vec<String> = (table.rows)().into_iter().map(|row| row.at).collect();
    FigureError::NoRow {
        key,
        table: alloc::format!("{} ({})", table.reference(), table.gives),
        given,
        allowed: rows.join(", "),
    }
}
