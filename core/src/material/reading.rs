use super::card::Card;
use super::error::MaterialError;
use super::inputs::visit_values;
use super::plausible::refuse_impossible;
use crate::input::from_toml;

impl Card {
    /// Writes a card that reads back as this one.
    ///
    /// # Errors
    ///
    /// Where a number is not finite.
    pub fn to_toml(&self) -> Result<String, MaterialError> {
        toml::to_string(self).map_err(|error| MaterialError::Format { reason: error.to_string() })
    }

    /// Reads and checks the text of a card.
    ///
    /// # Errors
    ///
    /// Where the text is no TOML, a key is missing or unknown, or a value cannot be.
    ///
    /// ```
    /// use layload_core::material::Card;
    ///
    /// let text = Card::text_of("PA12-CF15").unwrap();
    /// let card = Card::from_toml(text).unwrap();
    /// assert_eq!(Card::from_toml(&card.to_toml().unwrap()).unwrap(), card);
    /// ```
    pub fn from_toml(text: &str) -> Result<Self, MaterialError> {
        let mut card: Self = from_toml(text).map_err(|reason| MaterialError::Format { reason })?;
        let name = card.name.clone();
        let implausible =
            |what: &str, value: f64| MaterialError::Implausible { card: name.clone(), what: what.into(), value };
        let mut fault = None;
        visit_values(&mut card, |input, value| {
            let v = value.value;
            let temperature = input.unit == "°C";
            let possible = v.is_finite() && (temperature || v > 0.0) && !(input.share && v > 1.0);
            let founded = (0.0..=1.0).contains(&value.memory_share());
            if !possible || !founded || value.relative_spread().is_nan() || value.relative_spread() < 0.0 {
                fault = fault.take().or(Some((input.name, v)));
            }
        });
        if let Some((what, value)) = fault {
            return Err(implausible(what, value));
        }
        refuse_impossible(&card)?;
        if let Some(weld) = &card.weld {
            weld.checked(&card.name)?;
        }
        if let Some(correlation) = card.correlation.as_ref().filter(|known| !known.is_sound()) {
            return Err(implausible("number of rows of the correlation", correlation.rows.len() as f64));
        }
        let points = &card.temperature.retention.points;
        if points.len() < 2 {
            return Err(implausible("number of retention points", points.len() as f64));
        }
        for pair in points.windows(2) {
            let rising = pair[1].temperature_c > pair[0].temperature_c;
            let falling = pair[1].strength <= pair[0].strength && pair[1].stiffness <= pair[0].stiffness;
            if !(rising && falling && pair[1].strength >= 0.0 && pair[1].stiffness >= 0.0) {
                return Err(implausible("retention curve", pair[1].temperature_c));
            }
        }
        let loss = &card.thermal.loss_factor.points;
        if loss.len() < 2 {
            return Err(implausible("number of loss points", loss.len() as f64));
        }
        for pair in loss.windows(2) {
            if pair[1].temperature_c.is_nan() || pair[1].temperature_c <= pair[0].temperature_c {
                return Err(implausible("temperature of a loss point", pair[1].temperature_c));
            }
        }
        // Rubbery peaks reach about three; more is a slip of the pen.
        if let Some(bad) = loss.iter().find(|point| !(point.loss_factor > 0.0 && point.loss_factor <= 10.0)) {
            return Err(implausible("loss factor", bad.loss_factor));
        }
        for test in &card.fatigue.tests {
            let above_zero = [test.maximum_mpa, test.strength_mpa, test.cycles, test.frequency_hz.unwrap_or(1.0)];
            if let Some(bad) = above_zero.into_iter().find(|number| !(number.is_finite() && *number > 0.0)) {
                return Err(implausible("number of a fatigue test", bad));
            }
            if !(test.stress_ratio < 1.0 && test.stress_ratio >= -1.0) {
                return Err(implausible("stress ratio of a fatigue test", test.stress_ratio));
            }
            if !(test.survival > 0.0 && test.survival < 1.0 && test.temperature_c.is_finite()) {
                return Err(implausible("survival or temperature of a fatigue test", test.survival));
            }
        }
        Ok(card)
    }
}
