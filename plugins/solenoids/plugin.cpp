// The one exported symbol of the plugin.
#include "domain.h"

CASEBOUND_MANIFEST("solenoids", casebound::solenoids::instance)
