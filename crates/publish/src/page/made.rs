//! How the page was made, so that another can make it again.

use std::fmt::Write as _;

use super::SideModel;
use super::text::Text;

/// The section: the program, the command, the files with their sums, the cautions.
pub(super) fn section<'s>(
    program: &str,
    command: &str,
    sides: impl Iterator<Item = &'s SideModel>,
) -> String {
    let mut sums = String::new();
    for (side, sum) in sides.filter_map(|side| Some((side, side.sha256.as_ref()?))) {
        let _ = writeln!(
            sums,
            "<dt><bdi>{}</bdi></dt>\n<dd class=\"code\">SHA-256 {}</dd>",
            Text(&side.file_name),
            Text(sum)
        );
    }
    format!(
        "<section class=\"text made\">\n<h2>How it was made</h2>\n<p>By {}, with this command:</p>\n\
         <pre tabindex=\"0\" aria-label=\"The command\">{}</pre>\n<dl>\n{sums}</dl>\n\
         <p class=\"colophon\">Every finding here is a proposal, for a person to accept, reject or correct. It is \
         evidence about printing, and neither an authentication nor a valuation. For the handling of the sheets \
         themselves, follow the rules of the library that holds them and ask its conservator.</p>\n\
         <p class=\"colophon\">Set in EB Garamond (SIL Open Font License 1.1).</p>\n</section>\n",
        Text(program),
        Text(command)
    )
}
