#include "core/serve/request_queue.h"

#include <fmt/format.h>

#include "core/ground/memory_reserve.h"
#include "core/html/plain_page.h"

namespace casebound {

namespace {

PageReply answered(const Answerer& answer, const PageRequest& request) {
    try {
        return answer(request);
    } catch (const std::exception& error) {
        PageReply reply;
        reply.status = 500;
        reply.body = plain_page(
            "This should not happen",
            fmt::format("{}: go back and try something else; please report it with what was asked.", error.what()));
        return reply;
    }
}

}  // namespace

// Whoever is woken finds the lock free.
void RequestQueue::put(Job job) {
    {
        const std::lock_guard lock(mutex_);
        jobs_.push_back(std::move(job));
    }
    changed_.notify_one();
}

void RequestQueue::close() {
    const std::lock_guard lock(mutex_);
    closed_ = true;
    changed_.notify_one();
}

void RequestQueue::work(const Answerer& answer) {
    while (auto job = next()) {
        keep_memory_back();
        job->done(answered(answer, job->request));
    }
}

std::optional<RequestQueue::Job> RequestQueue::next() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return closed_ || !jobs_.empty(); });
    if (closed_) return std::nullopt;
    auto job = std::move(jobs_.front());
    jobs_.pop_front();
    return job;
}

}  // namespace casebound
