use core::ops::Range;

use serde::de::value::{StrDeserializer, StringDeserializer};
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error, IntoDeserializer, MapAccess, SeqAccess, Unexpected,
    VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;
use toml::Spanned;
use toml::de::{DeArray, DeString, DeTable, DeValue};

use super::fault::Fault;

/// A value of the text and where it stands.
pub(super) struct Reading<'de> {
    pub(super) value: DeValue<'de>,
    pub(super) span: Range<usize>,
}

impl<'de> From<Spanned<DeValue<'de>>> for Reading<'de> {
    fn from(value: Spanned<DeValue<'de>>) -> Self {
        let span = value.span();
        Self { value: value.into_inner(), span }
    }
}

/// A number as it is written.
enum Numeral {
    Whole(i64),
    Real(f64),
}

impl Reading<'_> {
    /// The fault of a value of another kind.
    #[inline(never)]
    fn unlike(&self, wanted: &dyn serde::de::Expected) -> Fault {
        let fault = match (&self.value, self.number()) {
            (_, Some(Numeral::Whole(number))) => Fault::invalid_type(Unexpected::Signed(number), wanted),
            (_, Some(Numeral::Real(number))) => Fault::invalid_type(Unexpected::Float(number), wanted),
            (DeValue::String(text), _) => Fault::invalid_type(Unexpected::Str(text), wanted),
            (DeValue::Boolean(value), _) => Fault::invalid_type(Unexpected::Bool(*value), wanted),
            (DeValue::Array(_), _) => Fault::invalid_type(Unexpected::Seq, wanted),
            (DeValue::Table(_), _) => Fault::invalid_type(Unexpected::Map, wanted),
            (DeValue::Datetime(_), _) => Fault::invalid_type(Unexpected::Other("a date"), wanted),
            _ => Fault::invalid_type(Unexpected::Other("a number with so many digits"), wanted),
        };
        fault.at(self.span.clone())
    }

    #[inline(never)]
    fn number(&self) -> Option<Numeral> {
        match &self.value {
            DeValue::Integer(number) => i64::from_str_radix(number.as_str(), number.radix()).ok().map(Numeral::Whole),
            DeValue::Float(number) => {
                let value: f64 = number.as_str().parse().ok()?;
                // Digits that overflow are a slip; `inf` is meant.
                (value.is_finite() || number.as_str().contains(['i', 'n'])).then_some(Numeral::Real(value))
            }
            _ => None,
        }
    }
}

impl<'de> Deserializer<'de> for Reading<'de> {
    type Error = Fault;

    /// Only where any kind of value may stand: a direction by name or by numbers.
    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        let span = self.span.clone();
        match (self.number(), self.value) {
            (Some(Numeral::Whole(number)), _) => visitor.visit_i64(number),
            (Some(Numeral::Real(number)), _) => visitor.visit_f64(number),
            (_, DeValue::String(text)) => visitor.visit_string(text.into_owned()),
            (_, DeValue::Boolean(value)) => visitor.visit_bool(value),
            (_, DeValue::Array(items)) => visitor.visit_seq(Items(items.into_iter())),
            (_, DeValue::Table(entries)) => visitor.visit_map(Entries::new(entries)),
            (_, value) => Err(Reading { value, span: span.clone() }.unlike(&visitor)),
        }
        .map_err(|fault| fault.at(span))
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            DeValue::Boolean(value) => visitor.visit_bool(value),
            _ => Err(self.unlike(&visitor)),
        }
    }

    fn deserialize_i64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.number() {
            Some(Numeral::Whole(number)) => visitor.visit_i64(number),
            _ => Err(self.unlike(&visitor)),
        }
        .map_err(|fault: Fault| fault.at(self.span))
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.number() {
            Some(Numeral::Whole(number)) => visitor.visit_f64(number as f64),
            Some(Numeral::Real(number)) => visitor.visit_f64(number),
            None => Err(self.unlike(&visitor)),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            DeValue::String(text) => visitor.visit_string(text.into_owned()),
            _ => Err(self.unlike(&visitor)),
        }
    }

    /// A key that stands is said; one that says nothing is left out.
    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_some(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            DeValue::Array(items) => visitor.visit_seq(Items(items.into_iter())).map_err(|fault| fault.at(self.span)),
            _ => Err(self.unlike(&visitor)),
        }
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            DeValue::Table(entries) => visitor.visit_map(Entries::new(entries)).map_err(|fault| fault.at(self.span)),
            _ => Err(self.unlike(&visitor)),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match self.value {
            DeValue::String(word) => visitor.visit_enum(Word(word)).map_err(|fault| fault.at(self.span)),
            _ => Err(self.unlike(&"a word in quotes")),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _name: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, _length: usize, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_string(visitor)
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_i64(visitor)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_i64(visitor)
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i128 u8 u16 u128 f32 char bytes byte_buf unit unit_struct tuple_struct identifier ignored_any
    }
}

/// A list.
struct Items<'de>(<DeArray<'de> as IntoIterator>::IntoIter);

impl<'de> SeqAccess<'de> for Items<'de> {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Fault> {
        self.0.next().map(|item| seed.deserialize(Reading::from(item))).transpose()
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.0.len())
    }
}

/// A table.
struct Entries<'de> {
    rest: <DeTable<'de> as IntoIterator>::IntoIter,
    value: Option<Reading<'de>>,
}

impl<'de> Entries<'de> {
    fn new(table: DeTable<'de>) -> Self {
        Self { rest: table.into_iter(), value: None }
    }

    #[inline(never)]
    fn next_key(&mut self) -> Option<(DeString<'de>, Range<usize>)> {
        let (key, value) = self.rest.next()?;
        self.value = Some(value.into());
        let span = key.span();
        Some((key.into_inner(), span))
    }
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Fault> {
        let Some((key, span)) = self.next_key() else { return Ok(None) };
        let key: StrDeserializer<'_, Fault> = (*key).into_deserializer();
        seed.deserialize(key).map(Some).map_err(|fault| fault.at(span))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Fault> {
        let Some(value) = self.value.take() else { return Err(Fault::custom("a key without its value")) };
        let span = value.span.clone();
        seed.deserialize(value).map_err(|fault| fault.at(span))
    }
}

/// A word of a list of words.
struct Word<'de>(DeString<'de>);

impl<'de> EnumAccess<'de> for Word<'de> {
    type Error = Fault;
    type Variant = Alone;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Alone), Fault> {
        let word: StringDeserializer<Fault> = self.0.into_owned().into_deserializer();
        seed.deserialize(word).map(|word| (word, Alone))
    }
}

/// A word has nothing beside it.
struct Alone;

impl<'de> VariantAccess<'de> for Alone {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, _seed: T) -> Result<T::Value, Fault> {
        Err(more())
    }

    fn tuple_variant<V: Visitor<'de>>(self, _length: usize, _visitor: V) -> Result<V::Value, Fault> {
        Err(more())
    }

    fn struct_variant<V: Visitor<'de>>(self, _fields: &'static [&'static str], _visitor: V) -> Result<V::Value, Fault> {
        Err(more())
    }
}

fn more() -> Fault {
    Fault::custom("a word alone says too little here")
}
