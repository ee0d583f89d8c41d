/* A whole host in C: reads a mesh and a job, asks, shows progress, stops at Ctrl-C, prints the report as JSON.
 *
 *     bash wasm-plugin/hosts/c/build.sh
 *     cc -Iwasm-plugin/hosts/c/include wasm-plugin/hosts/c/example/check.c -Ltarget/c -llayload_c -Wl,-rpath,target/c -o check
 *     ./check samples/plain_rod.stl samples/bench_single.toml
 *
 * A third argument is the question: '{"question": "walls", "least_mm": 2.0}'.
 */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "layload.h"

static volatile sig_atomic_t stopped;

static void stop(int signal_number) {
    (void)signal_number;
    stopped = 1;
}

/* Called as work goes on; false ends the question. */
static bool show(void *user, const char *stage, double share) {
    (void)user;
    fprintf(stderr, "%3.0f %%  %s\n", 100 * share, stage);
    return !stopped;
}

/* All bytes of a file; null where it cannot be read. */
static char *whole_file(const char *path, size_t *length) {
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    char *bytes = NULL;
    size_t room = 0, taken = 0, got = 1;
    while (got > 0) {
        if (taken == room) {
            room = room ? 2 * room : 1 << 16;
            char *more = realloc(bytes, room);
            if (!more) break;
            bytes = more;
        }
        got = fread(bytes + taken, 1, room - taken, file);
        taken += got;
    }
    int bad = ferror(file) || got > 0;
    fclose(file);
    if (bad) {
        free(bytes);
        return NULL;
    }
    *length = taken;
    return bytes;
}

/* Says why there is no answer, and frees the reason. */
static int refused(layload_error *error) {
    const char *key = layload_error_key(error);
    fprintf(stderr, "%s (%s%s%s)\n  help: %s\n", layload_error_message(error), layload_error_code(error),
            key ? ", " : "", key ? key : "", layload_error_help(error));
    layload_error_free(error);
    return 2;
}

int main(int count, char **arguments) {
    if (count < 3) {
        fprintf(stderr, "give a mesh and a job file, and the question if it is not a check\n");
        return 2;
    }
    const char *question = count > 3 ? arguments[3] : "{\"question\": \"check\"}";
    signal(SIGINT, stop);

    size_t mesh_length = 0, job_length = 0;
    char *mesh = whole_file(arguments[1], &mesh_length);
    char *toml = whole_file(arguments[2], &job_length);
    if (!mesh || !toml) fprintf(stderr, "%s cannot be read\n", mesh ? arguments[2] : arguments[1]);

    /* Each step has its result or an error, never both; what was not made is null, and freeing null is nothing. */
    int code = mesh && toml ? 0 : 2;
    layload_error *error = NULL;
    layload_job *job = NULL;
    layload_part *part = NULL;
    layload_answer *answer = NULL;
    if (!code) error = layload_job_read(toml, job_length, &job);
    if (!code && !error) error = layload_part_from_stl((const uint8_t *)mesh, mesh_length, job, show, NULL, &part);
    if (!code && !error) error = layload_ask(part, job, question, show, NULL, &answer);
    if (error) code = refused(error);

    if (answer) {
        size_t length = 0;
        const char *json = layload_answer_json(answer, &length);
        fwrite(json, 1, length, stdout);
        fprintf(stderr, "\n%s", layload_answer_words(answer, NULL));
    }
    layload_answer_free(answer);
    layload_part_free(part);
    layload_job_free(job);
    free(toml);
    free(mesh);
    return code;
}
