// The one exported symbol of the plugin.
#include "domain.h"

CASEBOUND_MANIFEST("mounts", casebound::mounts::instance)
