//! A place in a text that moves forward a character at a time.

/// Reads a text from left to right; a clone looks ahead without moving.
#[derive(Clone, Debug)]
pub(crate) struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// The byte offset of the next character.
    pub(crate) fn at(&self) -> usize {
        self.at
    }

    pub(crate) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    /// The text from `start` to here.
    pub(crate) fn since(&self, start: usize) -> &'a str {
        self.text.get(start..self.at).unwrap_or_default()
    }

    pub(crate) fn is_end(&self) -> bool {
        self.rest().is_empty()
    }

    pub(crate) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// The character after the next one.
    pub(crate) fn peek_second(&self) -> Option<char> {
        self.rest().chars().nth(1)
    }

    /// Steps over the next character where it satisfies `test`.
    pub(crate) fn eat(&mut self, test: impl Fn(char) -> bool) -> Option<char> {
        let next = self.peek().filter(|&c| test(c))?;
        self.at += next.len_utf8();
        Some(next)
    }

    /// Steps over the longest run of characters that satisfy `test`.
    pub(crate) fn take_while(&mut self, test: impl Fn(char) -> bool) -> &'a str {
        let start = self.at;
        while self.eat(&test).is_some() {}
        self.since(start)
    }

    pub(crate) fn digits(&mut self) -> &'a str {
        self.take_while(|c| c.is_ascii_digit())
    }

    /// Steps over white space, no-break and thin spaces included.
    pub(crate) fn skip_space(&mut self) {
        self.take_while(char::is_whitespace);
    }

    /// Steps over a sign and tells whether it is a minus. Word processors turn the hyphen into
    /// an en dash or a true minus, so that these count as well.
    pub(crate) fn sign(&mut self) -> bool {
        self.eat(|c| c == '+' || is_minus(c)).is_some_and(is_minus)
    }
}

/// Hyphen, minus sign or en dash.
pub(crate) fn is_minus(c: char) -> bool {
    matches!(c, '-' | '\u{2212}' | '\u{2013}')
}

/// The value of a superscript digit.
pub(crate) fn superscript(c: char) -> Option<char> {
    let digit = match c {
        '⁰' => '0',
        '¹' => '1',
        '²' => '2',
        '³' => '3',
        '⁴' => '4',
        '⁵' => '5',
        '⁶' => '6',
        '⁷' => '7',
        '⁸' => '8',
        '⁹' => '9',
        _ => return None,
    };
    Some(digit)
}

/// Reads a power written after its base: `^2`, `^-6`, `²`, `⁻⁶`. Moves only if there is one.
/// A power too large for its type saturates.
pub(crate) fn power(cursor: &mut Cursor<'_>) -> Option<i32> {
    let mut ahead = cursor.clone();
    let (negative, digits) = if ahead.eat(|c| c == '^').is_some() {
        (ahead.sign(), ahead.digits().to_owned())
    } else {
        let negative = ahead.eat(|c| matches!(c, '⁻' | '⁺')) == Some('⁻');
        let raised = ahead.take_while(|c| superscript(c).is_some());
        (negative, raised.chars().filter_map(superscript).collect())
    };
    if digits.is_empty() {
        return None;
    }
    *cursor = ahead;
    Some(signed_integer(negative, &digits))
}

/// An integer from its digits; what does not fit is cut off far outside the range of `f64`.
pub(crate) fn signed_integer(negative: bool, digits: &str) -> i32 {
    const BEYOND: i32 = 100_000;
    let size = digits.parse().unwrap_or(BEYOND).min(BEYOND);
    if negative { -size } else { size }
}
