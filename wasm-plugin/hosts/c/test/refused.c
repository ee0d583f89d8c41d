/* What the library does with what no host should give it: every function, every pointer, every length. Run under the address
 * sanitizer, which also sees what is not freed. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "layload.h"

static int faults;

static void must(bool sound, const char *what) {
    if (!sound) {
        fprintf(stderr, "fault: %s\n", what);
        faults++;
    }
}

/* The error has this code and words; it is freed. */
static void refused(layload_error *error, const char *code, const char *what) {
    const char *got = layload_error_code(error);
    if (!got || strcmp(got, code) != 0) {
        fprintf(stderr, "fault: %s: wanted %s, got %s\n", what, code, got ? got : "no error");
        faults++;
    }
    must(!error || (strlen(layload_error_message(error)) > 0 && strlen(layload_error_help(error)) > 0), what);
    layload_error_free(error);
}

static void none(layload_error *error, const char *what) {
    if (error) fprintf(stderr, "%s\n", layload_error_message(error));
    must(!error, what);
    layload_error_free(error);
}

static char *whole_file(const char *path, size_t *length) {
    FILE *file = fopen(path, "rb");
    if (!file || fseek(file, 0, SEEK_END) != 0) exit(2);
    *length = (size_t)ftell(file);
    rewind(file);
    char *bytes = malloc(*length);
    if (!bytes || fread(bytes, 1, *length, file) != *length) exit(2);
    fclose(file);
    return bytes;
}

struct told {
    int calls, last;
    double share;
};

/* Counts, holds shares to their promise, and stops at the last call. */
static bool counting(void *user, const char *stage, double share) {
    struct told *told = user;
    must(strlen(stage) > 0 && share >= told->share && share <= 1, "progress");
    told->share = share;
    return ++told->calls < told->last;
}

static const char *QUICK = "{\"question\": \"check\", \"quick\": true, \"paint\": true}";

static void of_jobs(layload_job *job, const char *toml, size_t length) {
    layload_job *other = job;
    refused(layload_job_read(NULL, 5, &other), "argument-null", "job text");
    must(other == NULL, "no result beside an error");
    refused(layload_job_read(toml, length, NULL), "argument-null", "place of a job");
    refused(layload_job_read(toml, SIZE_MAX, &other), "argument-too-long", "length of a job");
    refused(layload_job_read("\xff\xfe", 2, &other), "argument-not-utf8", "job in no UTF-8");
    refused(layload_job_read("a = ", 4, &other), "job-format", "job that is no TOML");
    none(layload_job_read(NULL, 0, &other), "empty job");
    none(layload_job_set(other, "print.walls", "3"), "key");
    none(layload_job_set(other, "print.walls", NULL), "key taken out");
    refused(layload_job_set(NULL, "print.walls", "3"), "argument-null", "job of a key");
    refused(layload_job_set(other, NULL, "3"), "argument-null", "key");
    refused(layload_job_set(other, "print.wall", "3"), "job-key", "key that jobs do not have");
    refused(layload_job_attach_card(NULL, toml, length), "argument-null", "job of a card");
    refused(layload_job_attach_card(other, NULL, 5), "argument-null", "card");
    refused(layload_job_attach_pressure_table(other, toml, SIZE_MAX), "argument-too-long", "table");
    none(layload_job_attach_pressure_table(other, "0,1\n", 4), "table");
    layload_job_free(other);
    size_t room = (1 << 20) + 8;
    char *word = malloc(room);
    if (!word) exit(2);
    memset(word, 'a', room);
    word[room - 1] = 0;
    refused(layload_job_set(job, word, "3"), "argument-too-long", "key that does not end");
    free(word);
}

static void of_parts(const layload_job *job, const uint8_t *stl, size_t length) {
    layload_part *part = (layload_part *)stl;
    refused(layload_part_from_stl(NULL, length, job, NULL, NULL, &part), "argument-null", "mesh");
    must(part == NULL, "no result beside an error");
    refused(layload_part_from_stl(NULL, 0, job, NULL, NULL, &part), "mesh-empty", "empty mesh");
    refused(layload_part_from_stl(stl, SIZE_MAX, job, NULL, NULL, &part), "argument-too-long", "length of a mesh");
    refused(layload_part_from_stl(stl, length / 2, job, NULL, NULL, &part), "mesh-truncated", "half a mesh");
    refused(layload_part_from_stl(stl, length, NULL, NULL, NULL, &part), "argument-null", "job of a part");
    refused(layload_part_from_stl(stl, length, job, NULL, NULL, NULL), "argument-null", "place of a part");
    struct told at_once = {0, 1, 0};
    refused(layload_part_from_stl(stl, length, job, counting, &at_once, &part), "cancelled", "part, stopped");
    double points[9] = {0, 0, 0, 30, 0, 0, 0, 30, 0};
    uint32_t corners[6] = {0, 1, 2, 2, 1, 0}, far[3] = {0, 1, UINT32_MAX};
    refused(layload_part_from_triangles(NULL, 3, corners, 2, job, NULL, NULL, &part), "argument-null", "points");
    refused(layload_part_from_triangles(points, 3, NULL, 2, job, NULL, NULL, &part), "argument-null", "corners");
    refused(layload_part_from_triangles(points, SIZE_MAX / 2, corners, 2, job, NULL, NULL, &part), "argument-too-long",
            "count of points");
    refused(layload_part_from_triangles(points, 3, corners, SIZE_MAX / 8, job, NULL, NULL, &part), "argument-too-long",
            "count of triangles");
    refused(layload_part_from_triangles((double *)((char *)points + 1), 2, corners, 2, job, NULL, NULL, &part),
            "argument-misaligned", "points between numbers");
    refused(layload_part_from_triangles(points, 3, far, 1, job, NULL, NULL, &part), "mesh-no-such-point", "far corner");
    refused(layload_part_from_triangles(points, 3, corners, 0, job, NULL, NULL, &part), "mesh-empty", "no triangle");
    points[4] = NAN;
    refused(layload_part_from_triangles(points, 3, corners, 2, job, NULL, NULL, &part), "mesh-bad-coordinate", "NaN");
    must(part == NULL, "no part beside an error");
}

static void of_answers(const layload_part *part, const layload_job *job) {
    layload_answer *answer = NULL;
    refused(layload_ask(NULL, job, QUICK, NULL, NULL, &answer), "argument-null", "part");
    refused(layload_ask(part, NULL, QUICK, NULL, NULL, &answer), "argument-null", "job");
    refused(layload_ask(part, job, NULL, NULL, NULL, &answer), "argument-null", "question");
    refused(layload_ask(part, job, QUICK, NULL, NULL, NULL), "argument-null", "place of an answer");
    refused(layload_ask(part, job, "{}", NULL, NULL, &answer), "question-unreadable", "question that is none");
    refused(layload_compare(part, job, NULL, job, "{\"question\": \"compare\"}", NULL, NULL, &answer), "argument-null",
            "new part");
    must(answer == NULL, "no answer beside an error");
    struct told once = {0, 1, 0}, later = {0, 3, 0}, to_the_end = {0, 1000000, 0};
    refused(layload_ask(part, job, QUICK, counting, &once, &answer), "cancelled", "stopped at once");
    refused(layload_ask(part, job, QUICK, counting, &later, &answer), "cancelled", "stopped later");
    must(later.calls == 3, "no call after the last");
    none(layload_ask(part, job, QUICK, counting, &to_the_end, &answer), "asked after it was stopped");
    size_t length = 7;
    const char *json = layload_answer_json(answer, &length);
    must(json && strlen(json) == length && json[length - 1] == '\n', "JSON with its length");
    must(strlen(layload_answer_words(answer, NULL)) > 100, "words");
    layload_painted painted;
    none(layload_answer_painted(answer, &painted), "painted");
    must(painted.facet_count > 100 && painted.point_count > 50, "facets");
    for (size_t k = 0; k < 3 * painted.facet_count; k++) must(painted.corners[k] < painted.point_count, "corner");
    double sum = 0;
    for (size_t k = 0; k < painted.facet_count; k++) sum += isnan(painted.values[k]) ? 0 : painted.values[k];
    must(sum > 0, "numbers");
    refused(layload_answer_painted(answer, NULL), "argument-null", "place of the painted");
    refused(layload_answer_painted(NULL, &painted), "argument-null", "answer of the painted");
    must(layload_answer_json(NULL, &length) == NULL && length == 0, "JSON of nothing");
    must(layload_answer_words(NULL, NULL) == NULL, "words of nothing");
    layload_answer_free(answer);
    none(layload_compare(part, job, part, job, "{\"question\": \"compare\", \"quick\": true}", NULL, NULL, &answer), "compared");
    layload_answer_free(answer);
}

int main(int count, char **arguments) {
    if (count != 3) return 2;
    size_t stl_length, toml_length;
    char *stl = whole_file(arguments[1], &stl_length), *toml = whole_file(arguments[2], &toml_length);
    layload_job *job = NULL;
    layload_part *part = NULL;
    none(layload_job_read(toml, toml_length, &job), "job");
    none(layload_part_from_stl((uint8_t *)stl, stl_length, job, NULL, NULL, &part), "part");
    free(stl);
    of_jobs(job, toml, toml_length);
    free(toml);
    stl = whole_file(arguments[1], &stl_length);
    of_parts(job, (uint8_t *)stl, stl_length);
    free(stl);
    of_answers(part, job);
    must(layload_error_code(NULL) == NULL && layload_error_key(NULL) == NULL, "error that is none");
    must(layload_error_message(NULL) == NULL && layload_error_help(NULL) == NULL, "error that is none");
    layload_error_free(NULL);
    layload_answer_free(NULL);
    layload_part_free(NULL);
    layload_job_free(NULL);
    layload_part_free(part);
    layload_job_free(job);
    must(strlen(layload_version()) >= 5, "version");
    if (!faults) puts("refused.c: all as it should be");
    return faults ? 1 : 0;
}
