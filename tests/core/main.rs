//! Tests of the public face of `layload-core`, one file a behaviour.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod any;
mod bench;
mod bench_job;
mod bond;
mod copies;
mod coupon;
mod creep;
mod diagnosis;
mod drawing;
mod engine;
mod errors;
mod evidence;
mod field;
mod heat;
mod job;
mod journal;
mod ladder;
mod life;
mod load;
mod lug;
mod material;
mod mesh;
mod orient;
mod part;
mod physics;
mod piston;
mod pose;
mod print;
mod revision;
mod rooms;
mod scaled_job;
mod section;
mod sources;
mod stress;
mod study;
mod wall;
