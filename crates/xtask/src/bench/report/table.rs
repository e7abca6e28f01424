//! Tables in Markdown, and how figures are written in them.

use super::summary::Share;

/// A table: heads, and rows of as many cells.
#[derive(Debug, Default)]
pub(crate) struct Table {
    heads: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows.
    pub(crate) fn new(heads: impl IntoIterator<Item = impl Into<String>>) -> Self {
        Self { heads: heads.into_iter().map(Into::into).collect(), rows: Vec::new() }
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: impl IntoIterator<Item = impl Into<String>>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// The table as text, a blank line after it; nothing of a table without rows.
    pub(crate) fn markdown(&self) -> String {
        if self.rows.is_empty() {
            return String::new();
        }
        let line = |cells: &[String]| format!("| {} |\n", cells.join(" | "));
        let rule = format!("|{}\n", " --- |".repeat(self.heads.len()));
        let rows: String = self.rows.iter().map(|r| line(r)).collect();
        format!("{}{rule}{rows}\n", line(&self.heads))
    }
}

/// A number with so many places, or a dash.
pub(crate) fn number(value: Option<f64>, places: usize) -> String {
    value.filter(|v| v.is_finite()).map_or_else(|| "–".to_owned(), |v| format!("{v:.places$}"))
}

/// "3 of 200 (1.5 %)", or a dash of none.
pub(crate) fn share(s: Share) -> String {
    if s.of == 0 {
        return "–".to_owned();
    }
    format!("{} of {} ({:.1} %)", s.some, s.of, 100.0 * s.some as f64 / s.of as f64)
}

/// "0.97 (194 of 200)", or a dash of none.
pub(crate) fn rate(s: Share) -> String {
    if s.of == 0 {
        return "–".to_owned();
    }
    format!("{:.3} ({} of {})", s.some as f64 / s.of as f64, s.some, s.of)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_is_markdown() {
        let mut t = Table::new(["what", "how many"]);
        assert_eq!(t.markdown(), "");
        t.row(["wrong", "0"]);
        assert_eq!(t.markdown(), "| what | how many |\n| --- | --- |\n| wrong | 0 |\n\n");
    }

    #[test]
    fn nothing_is_a_dash() {
        assert_eq!(number(None, 2), "–");
        assert_eq!(number(Some(f64::NAN), 2), "–");
        assert_eq!(share(Share::default()), "–");
        assert_eq!(share(Share { some: 3, of: 200 }), "3 of 200 (1.5 %)");
        assert_eq!(rate(Share { some: 194, of: 200 }), "0.970 (194 of 200)");
    }
}
