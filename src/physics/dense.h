// SPDX-License-Identifier: GPL-3.0-or-later
// Small dense symmetric matrices on the stack: as many rows as a blend has components, at most.
#ifndef MILDSOLVE_PHYSICS_DENSE_H
#define MILDSOLVE_PHYSICS_DENSE_H

#include <stdbool.h>
#include <stddef.h>

enum { DENSE_MAX = 24 };

// Solves matrix * x = right for a symmetric positive definite matrix (rows of count; only the lower triangle is
// read and it is overwritten by its Cholesky factor). False when it is not positive definite: ret_x untouched.
bool dense_cholesky_solve(double *matrix, size_t count, const double *right, double *ret_x);

// Smallest eigenvalue of a symmetric matrix (rows of count, overwritten) and its unit eigenvector (may be NULL), by
// cyclic Jacobi rotations (Golub & Van Loan, Matrix Computations, 4th ed., sec. 8.5).
double dense_least_eigenvalue(double *matrix, size_t count, double *ret_vector);

#endif
