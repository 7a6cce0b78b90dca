// Shows one manifest in the file and another in memory.
#include "harmless.h"

extern "C" __attribute__((visibility("default"), used, section(".data.shown")))
const casebound::Manifest casebound_manifest{"CASEBND", CASEBOUND_STAMP, "two_manifests", &instance_of<Harmless>};

extern "C" __attribute__((used, section(".casebound")))
const casebound::Manifest another_manifest{"CASEBND", CASEBOUND_STAMP, "harmless_one", &instance_of<Harmless>};
