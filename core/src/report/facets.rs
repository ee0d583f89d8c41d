/// One number for every facet of a part's surface, for hosts that paint it.
#[derive(Debug, Clone, PartialEq)]
pub struct FacetValues {
    /// Corner points, mm, coordinates of the file.
    pub points_mm: Vec<[f64; 3]>,
    /// Corner numbers of each facet, counter-clockwise seen from outside.
    pub facets: Vec<[u32; 3]>,
    /// The number of each facet; `None` where there is none to give.
    pub values: Vec<Option<f64>>,
}
