/* Read before NLopt's optimize.c, which names every algorithm: all but the two that loftwright asks for (advise/solver.cpp)
   become a refusal, and their code, part of it under another licence, is left out of the page. */
#pragma once

#include <math.h>
#include <stdlib.h>

#include "nlopt-internal.h"

#include "auglag.h"
#include "bobyqa.h"
#include "cdirect.h"
#include "crs.h"
#include "direct.h"
#include "esch.h"
#include "isres.h"
#include "luksan.h"
#include "mlsl.h"
#include "mma.h"
#include "neldermead.h"
#include "newuoa.h"
#include "praxis.h"

#define auglag_minimize(...) NLOPT_INVALID_ARGS
#define bobyqa(...) NLOPT_INVALID_ARGS
#define ccsa_quadratic_minimize(...) NLOPT_INVALID_ARGS
#define cdirect(...) NLOPT_INVALID_ARGS
#define cdirect_unscaled(...) NLOPT_INVALID_ARGS
#define chevolutionarystrategy(...) NLOPT_INVALID_ARGS
#define crs_minimize(...) NLOPT_INVALID_ARGS
#define direct_optimize(...) DIRECT_INVALID_ARGS
#define isres_minimize(...) NLOPT_INVALID_ARGS
#define luksan_plip(...) NLOPT_INVALID_ARGS
#define luksan_plis(...) NLOPT_INVALID_ARGS
#define luksan_pnet(...) NLOPT_INVALID_ARGS
#define mlsl_minimize(...) NLOPT_INVALID_ARGS
#define mma_minimize(...) NLOPT_INVALID_ARGS
#define newuoa(...) NLOPT_INVALID_ARGS
#define nldrmd_minimize(...) NLOPT_INVALID_ARGS
#define praxis_(...) NLOPT_INVALID_ARGS
#define sbplx_minimize(...) NLOPT_INVALID_ARGS
