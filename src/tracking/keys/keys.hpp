#pragma once

// What other layers need of this one.
#include "tracking/keys/link.hpp"
#include "tracking/keys/secret.hpp"
