// A whole host in C++17: what the library gives is owned, errors are exceptions, and a part can be painted.
//
//     bash wasm-plugin/hosts/c/build.sh
//     c++ -std=c++17 -Iwasm-plugin/hosts/c/include wasm-plugin/hosts/c/example/check.cpp -Ltarget/c -llayload_c
//         -Wl,-rpath,target/c -o check_cpp
//     ./check_cpp samples/plain_rod.stl samples/bench_single.toml '{"question": "check", "paint": true}'

#include <algorithm>
#include <fstream>
#include <functional>
#include <iostream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "layload.h"

namespace {

// Why there is no answer, as an exception.
class Refused : public std::runtime_error {
public:
    explicit Refused(layload_error *error)
        : std::runtime_error(layload_error_message(error)), code(layload_error_code(error)),
          key(layload_error_key(error) ? layload_error_key(error) : ""), help(layload_error_help(error)) {
        layload_error_free(error);
    }
    std::string code, key, help;
};

void must(layload_error *error) {
    if (error) throw Refused(error);
}

// What the library made, freed when it goes out of scope.
template <typename T, void (*Free)(T *)>
struct Freed {
    void operator()(T *made) const { Free(made); }
};
using Job = std::unique_ptr<layload_job, Freed<layload_job, layload_job_free>>;
using Part = std::unique_ptr<layload_part, Freed<layload_part, layload_part_free>>;
using Answer = std::unique_ptr<layload_answer, Freed<layload_answer, layload_answer_free>>;

// Told of each stage; false ends the question.
using Told = std::function<bool(const char *, double)>;

// No exception may leave a function that the library calls.
bool tell(void *user, const char *stage, double share) noexcept {
    try {
        return (*static_cast<Told *>(user))(stage, share);
    } catch (...) {
        return false;
    }
}

Job read_job(const std::string &toml) {
    layload_job *job = nullptr;
    must(layload_job_read(toml.data(), toml.size(), &job));
    return Job(job);
}

Part read_part(const std::string &stl, const Job &job, Told told) {
    layload_part *part = nullptr;
    const auto *bytes = reinterpret_cast<const uint8_t *>(stl.data());
    must(layload_part_from_stl(bytes, stl.size(), job.get(), tell, &told, &part));
    return Part(part);
}

Answer ask(const Part &part, const Job &job, const std::string &question, Told told) {
    layload_answer *answer = nullptr;
    must(layload_ask(part.get(), job.get(), question.c_str(), tell, &told, &answer));
    return Answer(answer);
}

std::string whole_file(const char *path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw std::runtime_error(std::string(path) + " cannot be read");
    return {std::istreambuf_iterator<char>(file), {}};
}

// The facet with the greatest number, for a host that paints.
void show_painted(const Answer &answer) {
    layload_painted painted{};
    must(layload_answer_painted(answer.get(), &painted));
    if (painted.facet_count == 0) return;
    const double *end = painted.values + painted.facet_count;
    const double *most = std::max_element(painted.values, end, [](double a, double b) { return !(a >= b) && b == b; });
    const uint32_t *corners = painted.corners + 3 * (most - painted.values);
    const double *point = painted.points_mm + 3 * corners[0];
    std::cerr << painted.facet_count << " facets; the greatest number, " << *most << ", at " << point[0] << ", " << point[1]
              << ", " << point[2] << " mm\n";
}

}  // namespace

int main(int count, char **arguments) {
    try {
        if (count < 3) throw std::runtime_error("give a mesh and a job file, and the question if it is not a check");
        const std::string question = count > 3 ? arguments[3] : R"({"question": "check"})";
        const Told told = [](const char *stage, double share) {
            std::cerr << int(100 * share) << " %  " << stage << '\n';
            return true;
        };
        const Job job = read_job(whole_file(arguments[2]));
        const Part part = read_part(whole_file(arguments[1]), job, told);
        const Answer answer = ask(part, job, question, told);
        size_t length = 0;
        const char *json = layload_answer_json(answer.get(), &length);
        std::cout.write(json, static_cast<std::streamsize>(length));
        std::cerr << '\n' << layload_answer_words(answer.get(), nullptr);
        show_painted(answer);
        return 0;
    } catch (const Refused &refused) {
        std::cerr << refused.what() << " (" << refused.code << ")\n  help: " << refused.help << '\n';
    } catch (const std::exception &error) {
        std::cerr << error.what() << '\n';
    }
    return 2;
}
