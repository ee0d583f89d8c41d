/* Checks of printed engine parts from their mesh. Made by wasm-plugin/hosts/c/header.sh; do not edit. */

#ifndef LAYLOAD_H
#define LAYLOAD_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

// An answer. It does not change.
typedef struct layload_answer layload_answer;

// Why there is no answer.
typedef struct layload_error layload_error;

// What the engine does and how the part is printed: the text of a job file. It may be used by several threads at the same time.
typedef struct layload_job layload_job;

// A part that was read once, for many questions. It does not change and may be asked by several threads at the same time.
typedef struct layload_part layload_part;

// Called as work goes on, in the thread that called the library: what begins, in a few words (UTF-8), and which share of the
// work lies behind, from 0 up to 1 and never less than before. The text is there until the function returns. After false the
// call ends with the error `cancelled`. A stage of a large mesh may take seconds. It must not throw, jump out of the call, or
// free what the running call was given.
typedef bool (*layload_progress)(void *user,
                                 const char *stage,
                                 double share);

// The surface that was asked about, with a number for every facet. It is part of its answer and gone with it.
typedef struct {
  // x, y and z of every point, mm, coordinates of the mesh.
  const double *points_mm;
  // How many points.
  size_t point_count;
  // Numbers of the three points of every facet, counter-clockwise seen from outside.
  const uint32_t *corners;
  // How many facets.
  size_t facet_count;
  // The number of every facet, NaN where there is none. After `check` stress over what 90 % of prints bear there for the
  // wanted life, 1 being the limit; after `walls` the least thickness, mm.
  const double *values;
} layload_painted;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

// Asks a part. `question` is JSON such as `{"question": "check", "cells": 20000}`; README of the plugin lists them. The answer
// is to be freed by `layload_answer_free`. Gives null, or why there is no answer.
//
// # Safety
//
// `part` and `job` are from this library and not freed, `question` ends with a zero, `progress` is null or may be called with
// `user`, `answer` points to a place for the result.
layload_error *layload_ask(const layload_part *part,
                           const layload_job *job,
                           const char *question,
                           layload_progress progress,
                           void *user,
                           layload_answer **answer);

// Compares two parts, each with its job; `question` is `{"question": "compare"}`. Otherwise as `layload_ask`.
//
// # Safety
//
// As of `layload_ask`, of both parts and jobs.
layload_error *layload_compare(const layload_part *old_part,
                               const layload_job *old_job,
                               const layload_part *new_part,
                               const layload_job *new_job,
                               const char *question,
                               layload_progress progress,
                               void *user,
                               layload_answer **answer);

// The report: the very bytes that the command line prints as JSON, with the line break at its end and a zero after it. Its length
// without that zero goes to `length` unless that is null.
//
// # Safety
//
// `answer` is null or from this library and not freed; the text is there until it is freed; null for null. `length` is null or
// may be written to.
const char *layload_answer_json(const layload_answer *answer,
                                size_t *length);

// What it says in plain English (UTF-8), a thought a line, with the cautions: show them to whoever will run the part. Otherwise
// as `layload_answer_json`.
//
// # Safety
//
// As of `layload_answer_json`.
const char *layload_answer_words(const layload_answer *answer,
                                 size_t *length);

// Puts the surface and its numbers into `painted`: of `walls`, and of `check` with `"paint": true` or `"facets": true`; of other
// answers all counts are 0. Gives null, or why not.
//
// # Safety
//
// `answer` is from this library and not freed; `painted` may be written to.
layload_error *layload_answer_painted(const layload_answer *answer,
                                      layload_painted *painted);

// Frees an answer; null is nothing.
//
// # Safety
//
// `answer` is null or was given by this library, was not freed, and is not used any more.
void layload_answer_free(layload_answer *answer);

// A short word for the reason that stays the same from version to version, for programs.
//
// # Safety
//
// `error` is null or was given by this library and not freed. The text is there until it is freed; null for null.
const char *layload_error_code(const layload_error *error);

// Key of the job that the reason is about, such as `engine.stroke_mm`; null where it is about none.
//
// # Safety
//
// As of `layload_error_code`.
const char *layload_error_key(const layload_error *error);

// What is wrong, a sentence in UTF-8.
//
// # Safety
//
// As of `layload_error_code`.
const char *layload_error_message(const layload_error *error);

// What to do about it, a sentence in UTF-8.
//
// # Safety
//
// As of `layload_error_code`.
const char *layload_error_help(const layload_error *error);

// Frees an error; null is nothing.
//
// # Safety
//
// `error` is null or was given by this library, was not freed, and is not used any more.
void layload_error_free(layload_error *error);

// Version of this library, such as `0.1.0`.
const char *layload_version(void);

// Reads a job file (TOML in UTF-8) of `length` bytes into `job`, which is to be freed by `layload_job_free`. A length of 0 is a
// job that says nothing. Gives null, or why there is no job.
//
// # Safety
//
// `toml` points to `length` bytes, `job` to a place for the result.
layload_error *layload_job_read(const char *toml,
                                size_t length,
                                layload_job **job);

// Sets what is said under a key such as `print.walls`, in the words of a job file (`2`, `"ball"`); takes it out where `value` is
// null. Gives null, or why not.
//
// # Safety
//
// `job` is from `layload_job_read` and not freed; `key` and `value` end with a zero.
layload_error *layload_job_set(const layload_job *job,
                               const char *key,
                               const char *value);

// Gives the text of a material card (TOML in UTF-8), as `material.card_file` of the job names it or in place of
// `material.name`. Gives null, or why not.
//
// # Safety
//
// `job` is from `layload_job_read` and not freed; `toml` points to `length` bytes.
layload_error *layload_job_attach_card(const layload_job *job,
                                       const char *toml,
                                       size_t length);

// Gives the text of measured pressure (crank angle in degrees and absolute pressure in bar, with commas), as
// `engine.gas.pressure_table` of the job names it. Gives null, or why not.
//
// # Safety
//
// `job` is from `layload_job_read` and not freed; `csv` points to `length` bytes.
layload_error *layload_job_attach_pressure_table(const layload_job *job,
                                                 const char *csv,
                                                 size_t length);

// Frees a job; null is nothing.
//
// # Safety
//
// `job` is null or was given by this library, was not freed, and is not used any more.
void layload_job_free(layload_job *job);

// Reads the part in an STL of `length` bytes, binary or ASCII, into `part`, which is to be freed by `layload_part_free`. Of the
// job only what it says of the part counts here. Gives null, or why there is no part.
//
// # Safety
//
// `stl` points to `length` bytes that do not change meanwhile, `job` is from `layload_job_read` and not freed, `progress` is null
// or may be called with `user`, `part` points to a place for the result.
layload_error *layload_part_from_stl(const uint8_t *stl,
                                     size_t length,
                                     const layload_job *job,
                                     layload_progress progress,
                                     void *user,
                                     layload_part **part);

// Reads the part in a surface: `point_count` times x, y and z, in the unit that the job says, millimetres unless it does; and
// `triangle_count` times the numbers of three points, counter-clockwise seen from outside, from 0. Coordinates are rounded to
// single precision, so that a surface gives the answer of the STL with the same points. Otherwise as `layload_part_from_stl`.
//
// # Safety
//
// `points` points to 3 times `point_count` numbers and `corners` to 3 times `triangle_count`; all else as of
// `layload_part_from_stl`.
layload_error *layload_part_from_triangles(const double *points,
                                           size_t point_count,
                                           const uint32_t *corners,
                                           size_t triangle_count,
                                           const layload_job *job,
                                           layload_progress progress,
                                           void *user,
                                           layload_part **part);

// Frees a part; null is nothing.
//
// # Safety
//
// `part` is null or was given by this library, was not freed, and is not used any more.
void layload_part_free(layload_part *part);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* LAYLOAD_H */
