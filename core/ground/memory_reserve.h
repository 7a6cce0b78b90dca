// Memory kept back for when there is none left: libraries take small pieces even to clean up behind an error, where a
// refusal would end the program. Of the first refusal one half is spent and the request tried again; of the next the
// other, and the request fails with std::bad_alloc.
#pragma once

namespace casebound {

// At the start of the program, and again before each piece of work of a long one. From one thread at a time; refusals may
// come on any.
void keep_memory_back() noexcept;

}  // namespace casebound
