// Where requests wait for the one thread that answers them, in the order they came. Bounded by who puts them there:
// a connection waits for its answer before it asks again.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>

#include "core/page/page.h"

namespace casebound {

using Answerer = std::function<PageReply(const PageRequest&)>;

class RequestQueue {
public:
    struct Job {
        PageRequest request;
        std::function<void(PageReply)> done;
    };

    void put(Job job);                  // from any thread
    void close();                       // work() returns after the answer under way; what waits is left
    void work(const Answerer& answer);  // until closed; an answer that throws becomes a page with status 500

private:
    std::optional<Job> next();
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Job> jobs_;
    bool closed_ = false;
};

}  // namespace casebound
