//! What the samples of a picture in a PDF mean.
//!
//! ISO 32000-1, 8.6 (colour spaces). Profiles are not applied: a space with a profile is taken by the
//! number of its components.

use lopdf::{Document, Object};

use super::super::tone::Layout;

/// The colour space of a picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Space {
    Grey,
    Rgb,
    Cmyk,
    /// One printing ink, 0 none to full: black on paper, reversed grey.
    Ink,
    /// Indexes into a table of colours, of so many components each in the space named.
    Indexed {
        base: Layout,
        table: Vec<u8>,
    },
}

impl Space {
    /// Components of a sample.
    pub(super) fn components(&self) -> usize {
        match self {
            Self::Grey | Self::Ink | Self::Indexed { .. } => 1,
            Self::Rgb => 3,
            Self::Cmyk => 4,
        }
    }

    /// The space that an object names; `None` of one that is not understood.
    pub(super) fn read(object: &Object, document: &Document) -> Option<Self> {
        let (_, object) = document.dereference(object).ok()?;
        if let Ok(name) = object.as_name() {
            return Self::plain(name);
        }
        let parts = object.as_array().ok()?;
        let part = |i: usize| document.dereference(parts.get(i)?).ok().map(|(_, o)| o);
        match part(0)?.as_name().ok()? {
            b"CalGray" => Some(Self::Grey),
            b"CalRGB" => Some(Self::Rgb),
            b"ICCBased" => match part(1)?.as_stream().ok()?.dict.get(b"N").ok()?.as_i64().ok()? {
                1 => Some(Self::Grey),
                3 => Some(Self::Rgb),
                4 => Some(Self::Cmyk),
                _ => None,
            },
            b"Separation" => Some(Self::Ink),
            b"DeviceN" => (part(1)?.as_array().ok()?.len() == 1).then_some(Self::Ink),
            b"Indexed" | b"I" => {
                // A table of a table is forbidden (8.6.6.3), so this does not go deeper than once.
                let base = match part(1)?.as_name().ok().map_or_else(
                    || part(1).filter(|o| !is_indexed(o)).and_then(|o| Self::read(o, document)),
                    Self::plain,
                )? {
                    Self::Grey => Layout::GREY,
                    Self::Rgb => Layout::RGB,
                    Self::Cmyk => Layout::CMYK,
                    _ => return None,
                };
                let table = match part(3)? {
                    Object::String(bytes, _) => bytes.clone(),
                    // 256 colours of at most 4 components; more is no table.
                    Object::Stream(stream) => stream.get_plain_content_with_limit(4096).ok()?,
                    _ => return None,
                };
                Some(Self::Indexed { base, table })
            }
            name => Self::plain(name),
        }
    }

    fn plain(name: &[u8]) -> Option<Self> {
        match name {
            b"DeviceGray" | b"G" => Some(Self::Grey),
            b"DeviceRGB" | b"RGB" => Some(Self::Rgb),
            b"DeviceCMYK" | b"CMYK" => Some(Self::Cmyk),
            _ => None,
        }
    }
}

fn is_indexed(object: &Object) -> bool {
    let first = object.as_array().ok().and_then(|a| a.first()?.as_name().ok());
    matches!(first, Some(b"Indexed" | b"I"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use lopdf::StringFormat;

    #[test]
    fn spaces_are_read_by_name_and_by_array() {
        let document = Document::new();
        let name = |n: &str| Object::Name(n.into());
        assert_eq!(Space::read(&name("DeviceRGB"), &document), Some(Space::Rgb));
        assert_eq!(Space::read(&name("Pattern"), &document), None);
        let indexed = Object::Array(vec![
            name("Indexed"),
            name("DeviceRGB"),
            1.into(),
            Object::String(vec![1, 2, 3, 4, 5, 6], StringFormat::Literal),
        ]);
        let expected = Space::Indexed { base: Layout::RGB, table: vec![1, 2, 3, 4, 5, 6] };
        assert_eq!(Space::read(&indexed, &document), Some(expected));
        let nested = Object::Array(vec![name("Indexed"), indexed, 1.into(), name("x")]);
        assert_eq!(Space::read(&nested, &document), None);
    }
}
