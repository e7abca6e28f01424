//! Figures by copy, sheet and forme, as a table in CSV.

use schemars::JsonSchema;
use serde::Serialize;

/// The most lines of a table that are taken.
pub const MOST_ROWS: usize = 200_000;

/// One forme of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FormeName {
    /// The forme with the first page of the sheet.
    Outer,
    /// The other.
    Inner,
}

impl FormeName {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Outer => "outer",
            Self::Inner => "inner",
        }
    }
}

/// One figure, or the lack of one, in one forme of one copy.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Row {
    /// The copy.
    pub copy: String,
    /// The sheet, as it is signed.
    pub sheet: String,
    /// The forme.
    pub forme: FormeName,
    /// The figure; null where the forme has none.
    pub figure: Option<String>,
}

/// Figures of one or more copies. Sheets stand in the order in which they are first named: that of printing as far as it is
/// known, most often that of the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    rows: Vec<Row>,
}

/// Why a table is not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// The first line does not name the columns.
    #[error(
        "line 1 names the columns {found}; it must name \"sheet\", \"forme\" and \"figure\", and \"copy\" if there are several copies"
    )]
    Columns {
        /// What it names.
        found: String,
    },
    /// A forme that is neither.
    #[error("line {line}: \"{found}\" is no forme; write outer or inner (o or i)")]
    NoForme {
        /// The line, from 1.
        line: u64,
        /// What stands there.
        found: String,
    },
    /// A sheet without a name.
    #[error("line {line}: the sheet has no name; write its signature, as B or 2A")]
    NoSheet {
        /// The line, from 1.
        line: u64,
    },
    /// A line that says what another said.
    #[error(
        "line {line}: {what} again, as on line {before}; give a forme one line for each figure it has, and one without a figure if it has none"
    )]
    Twice {
        /// The line, from 1.
        line: u64,
        /// The line before.
        before: u64,
        /// What it says.
        what: String,
    },
    /// The table is broken.
    #[error(
        "line {line}: this is no line of a table ({what}); each line needs as many cells as the first, parted by commas"
    )]
    Broken {
        /// The line, from 1.
        line: u64,
        /// What the reader of tables says.
        what: String,
    },
    /// No figure at all.
    #[error("no line has a figure; leave formes without one empty, but give at least one figure")]
    NoFigure,
    /// More lines than are taken.
    #[error("more than {MOST_ROWS} lines; read a book at a time")]
    TooLong,
}

impl Table {
    /// Takes rows as they stand.
    ///
    /// # Errors
    /// No figure among them, or too many.
    pub fn new(rows: Vec<Row>) -> Result<Self, TableError> {
        if rows.len() > MOST_ROWS {
            return Err(TableError::TooLong);
        }
        if rows.iter().all(|r| r.figure.is_none()) {
            return Err(TableError::NoFigure);
        }
        Ok(Self { rows })
    }

    /// Reads `copy,sheet,forme,figure`, a line for each figure. A forme without one has a line with an empty figure; a forme
    /// with two has two lines. A forme that is not named was not looked at. Other columns are let be.
    ///
    /// # Errors
    /// With the line and the remedy.
    pub fn from_csv(text: &str) -> Result<Self, TableError> {
        let text = text.trim_start_matches('\u{feff}');
        let mut reader =
            csv::ReaderBuilder::new().trim(csv::Trim::All).comment(Some(b'#')).from_reader(text.as_bytes());
        let broken = |e: &csv::Error| TableError::Broken {
            line: e.position().map_or(1, csv::Position::line),
            what: crate::survival::what_is_broken(e),
        };
        let headers = reader.headers().map_err(|e| broken(&e))?.clone();
        let column = |name: &str| headers.iter().position(|h| h.eq_ignore_ascii_case(name));
        let (Some(sheet), Some(forme), Some(figure)) = (column("sheet"), column("forme"), column("figure"))
        else {
            let named: Vec<String> = headers.iter().take(8).map(|h| format!("{h:?}")).collect();
            return Err(TableError::Columns { found: named.join(", ") });
        };
        let copy = column("copy");
        let mut rows = Vec::new();
        let mut seen = std::collections::BTreeMap::new();
        for row in reader.records() {
            let row = row.map_err(|e| broken(&e))?;
            let line = row.position().map_or(0, csv::Position::line);
            let cell = |at: usize| row.get(at).unwrap_or_default();
            if cell(sheet).is_empty() {
                return Err(TableError::NoSheet { line });
            }
            let forme = match cell(forme).to_lowercase().as_str() {
                "outer" | "o" => FormeName::Outer,
                "inner" | "i" => FormeName::Inner,
                found => return Err(TableError::NoForme { line, found: found.chars().take(24).collect() }),
            };
            let figure = Some(cell(figure)).filter(|f| !f.is_empty()).map(str::to_owned);
            let copy = copy.map_or("", cell).to_owned();
            let key = (copy.clone(), cell(sheet).to_owned(), forme, figure.clone());
            if let Some(before) = seen.insert(key, line) {
                let what = format!(
                    "sheet {} {} has {}",
                    cell(sheet),
                    forme.name(),
                    figure.as_deref().unwrap_or("no figure")
                );
                return Err(TableError::Twice { line, before, what });
            }
            rows.push(Row { copy, sheet: cell(sheet).to_owned(), forme, figure });
            if rows.len() > MOST_ROWS {
                return Err(TableError::TooLong);
            }
        }
        Self::new(rows)
    }

    /// Its rows.
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_is_read() {
        let table =
            Table::from_csv("copy,sheet,forme,figure,page\nHallow,B,o,3,2v\nHallow,B,Inner,,\n").unwrap();
        assert_eq!(table.rows().len(), 2);
        assert_eq!((table.rows()[0].forme, table.rows()[1].figure.as_deref()), (FormeName::Outer, None));
        assert_eq!(Table::from_csv("sheet,forme,figure\nB,i,*").unwrap().rows()[0].copy, "");
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line() {
        let told = |text: &str| Table::from_csv(text).unwrap_err().to_string();
        assert!(told("sheet,figure\nB,1").starts_with("line 1 names the columns \"sheet\", \"figure\""));
        assert!(told("sheet,forme,figure\nB,x,1").starts_with("line 2: \"x\" is no forme"));
        assert!(told("sheet,forme,figure\n,o,1").contains("no name"));
        assert!(
            told("sheet,forme,figure\nB,o,1\nB,o,1")
                .contains("line 3: sheet B outer has 1 again, as on line 2")
        );
        assert!(told("sheet,forme,figure\nB,o,").contains("at least one figure"));
        assert!(told("sheet,forme,figure\nB,o").contains("2 cells where the first line has 3"));
    }
}
