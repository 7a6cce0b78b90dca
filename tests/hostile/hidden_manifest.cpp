// Has a manifest in the file, and exports none.
#include "harmless.h"

extern "C" __attribute__((visibility("hidden"), used, section(".casebound")))
const casebound::Manifest casebound_manifest{"CASEBND", CASEBOUND_STAMP, "hidden_manifest", &instance_of<Harmless>};
