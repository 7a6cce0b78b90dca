// TARGET CORPUS [RUNS]: every file of the corpus, and RUNS inputs made of them by a seeded draw, each one, two or three
// changes away: the short form of a fuzz target, for every test run. The long form is libFuzzer's (CASEBOUND_FUZZ).
#include <algorithm>
#include <random>

#include "tests/fuzz/target.h"

namespace {

namespace files = std::filesystem;

using Input = std::vector<std::uint8_t>;

std::vector<Input> corpus_in(const std::string& folder) {
    std::vector<files::path> paths;
    for (const auto& entry : files::directory_iterator(folder)) paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    std::vector<Input> all;
    for (const auto& path : paths) {
        std::ifstream in(path, std::ios::binary);
        all.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
    }
    return all;
}

class Changer {
public:
    explicit Changer(const std::vector<Input>& corpus) : corpus_(corpus) {}

    Input next() {
        auto input = corpus_[below(corpus_.size())];
        for (auto changes = 1 + below(3); changes > 0; --changes) change(input);
        return input;
    }

private:
    std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(draw_); }

    void change(Input& input) {
        const auto at = input.empty() ? 0 : below(input.size());
        const auto place = input.begin() + static_cast<std::ptrdiff_t>(at);
        const auto run = input.empty() ? 0 : 1 + below(std::min<std::size_t>(input.size() - at, 24));
        switch (input.empty() ? 2 : below(7)) {
            case 0: input[at] ^= static_cast<std::uint8_t>(1U << below(8)); break;
            case 1: input[at] = static_cast<std::uint8_t>(below(256)); break;
            case 2: input.insert(place, static_cast<std::uint8_t>(below(256))); break;
            case 3: input.erase(place, place + static_cast<std::ptrdiff_t>(run)); break;
            case 4: {  // a piece comes again
                const Input piece(place, place + static_cast<std::ptrdiff_t>(run));
                input.insert(input.begin() + static_cast<std::ptrdiff_t>(below(input.size())), piece.begin(),
                             piece.end());
                break;
            }
            case 5: input.resize(at); break;
            default: {  // the end of another
                const auto& other = corpus_[below(corpus_.size())];
                if (other.empty()) break;
                const auto from = below(other.size());
                input.resize(at);
                input.insert(input.end(), other.begin() + static_cast<std::ptrdiff_t>(from), other.end());
            }
        }
    }

    const std::vector<Input>& corpus_;
    std::mt19937_64 draw_{20261129};
};

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) return std::fprintf(stderr, "usage: %s CORPUS [RUNS]\n", argv[0]), 64;
    const auto corpus = corpus_in(argv[1]);
    if (corpus.empty()) return std::fprintf(stderr, "%s: no inputs\n", argv[1]), 66;
    for (const auto& input : corpus) LLVMFuzzerTestOneInput(input.data(), input.size());
    const long runs = argc > 2 ? std::strtol(argv[2], nullptr, 10) : 0;
    Changer changer(corpus);
    for (long run = 0; run < runs; ++run) {
        const auto input = changer.next();
        // What ends the process is found again: the input is on disk before it is tried.
        if (const char* last = std::getenv("CASEBOUND_LAST_INPUT")) {
            std::ofstream out(last, std::ios::binary);
            out.write(reinterpret_cast<const char*>(input.data()), static_cast<std::streamsize>(input.size()));
        }
        LLVMFuzzerTestOneInput(input.data(), input.size());
    }
    std::printf("%zu of the corpus, %ld made of them\n", corpus.size(), runs);
}
