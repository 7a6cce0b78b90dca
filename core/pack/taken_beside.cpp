#include "core/pack/taken_beside.h"

#include <array>
#include <future>
#include <new>
#include <string>

namespace casebound {

namespace {

// Rows copied, all of one width.
class Batch {
public:
    bool full() const { return text_.size() >= std::size_t{1} << 19; }

    void add(std::uint32_t line, const std::vector<std::string_view>& cells, const std::vector<double>& numbers) {
        for (const auto cell : cells) {
            text_ += cell;
            ends_.push_back(text_.size());
        }
        numbers_.insert(numbers_.end(), numbers.begin(), numbers.end());
        lines_.push_back(line);
    }

    // And forgets them.
    void give(RowTaker& taker) {
        if (lines_.empty()) return;
        const std::size_t width = ends_.size() / lines_.size();
        std::vector<std::string_view> cells(width);
        std::vector<double> numbers(width);
        std::size_t at = 0, from = 0;
        for (const auto line : lines_) {
            for (std::size_t i = 0; i < width; ++i, ++at) {
                cells[i] = std::string_view(text_).substr(from, ends_[at] - from);
                from = ends_[at];
                numbers[i] = numbers_[at];
            }
            taker.take(line, cells, numbers);
        }
        text_.clear();
        ends_.clear();
        numbers_.clear();
        lines_.clear();
    }

private:
    std::string text_;               // of all cells
    std::vector<std::size_t> ends_;  // of each cell in it
    std::vector<double> numbers_;
    std::vector<std::uint32_t> lines_;
};

class TakenBeside final : public RowTaker {
public:
    explicit TakenBeside(std::unique_ptr<RowTaker> taker) : taker_(std::move(taker)) {}
    // A future of std::async waits for its thread when it goes, so that none uses what is gone.

    void expect(std::size_t rows) override {
        wait();
        try {
            taker_->expect(rows);
        } catch (const std::bad_alloc&) {}
    }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells,
              const std::vector<double>& numbers) override {
        filled().add(line, cells, numbers);
        if (filled().full()) hand_over();
    }
    void finish() override {
        hand_over();
        wait();
        taker_->finish();
    }

private:
    Batch& filled() { return batches_[filling_]; }
    void wait() {
        if (taking_.valid()) taking_.get();
    }
    void hand_over() {
        wait();
        // Where there is no thread to be had, it is done when it is waited for.
        taking_ = std::async(std::launch::async | std::launch::deferred,
                             [this, &batch = filled()] { batch.give(*taker_); });
        filling_ = 1 - filling_;
    }

    std::unique_ptr<RowTaker> taker_;
    std::array<Batch, 2> batches_;
    std::size_t filling_ = 0;
    std::future<void> taking_;  // the last member: it goes first
};

}  // namespace

std::unique_ptr<RowTaker> taken_beside(std::unique_ptr<RowTaker> taker) {
    return std::make_unique<TakenBeside>(std::move(taker));
}

}  // namespace casebound
