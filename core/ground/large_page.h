// The heap on large pages. A short command takes about 2 MB of it, and to be given that in 500 small pages took a quarter of
// its time; one of 2 MB is given at once.
#pragma once

namespace casebound {

// Once, at the beginning of main(). Where the kernel has no such pages to give, the heap grows as it always does.
void heap_on_large_pages();

}  // namespace casebound
