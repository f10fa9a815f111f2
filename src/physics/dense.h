// SPDX-License-Identifier: GPL-3.0-or-later
// Small dense matrices on the caller's stack: about as many rows as a blend has components.
#ifndef MILDSOLVE_PHYSICS_DENSE_H
#define MILDSOLVE_PHYSICS_DENSE_H

#include <stdbool.h>
#include <stddef.h>

enum { DENSE_MAX = 24 };

// Solves matrix * x = right for a symmetric positive definite matrix (rows of count; only the lower triangle is
// read and it is overwritten by its Cholesky factor). False when it is not positive definite: ret_x untouched.
bool dense_cholesky_solve(double *matrix, size_t count, const double *right, double *ret_x);

// The two halves of it. The factor is the lower triangle; with it, `right` becomes x.
bool dense_factor(double *matrix, size_t count);
void dense_solve_factored(const double *factor, size_t count, double *right);

// Number of negative eigenvalues of a symmetric matrix (only the lower triangle is read, it is overwritten): the negative
// pivots of its L D L' factors (Sylvester's law of inertia). SIZE_MAX when a pivot vanishes.
size_t dense_negative_eigenvalues(double *matrix, size_t count);

// Solves matrix * x = right for any regular matrix and `columns` right-hand sides (rows of columns) by elimination with
// row exchange; the matrix is used up, `right` becomes x. False when it is singular.
bool dense_eliminate(double *matrix, size_t count, double *right, size_t columns);

// Smallest eigenvalue of a symmetric matrix (rows of count, overwritten) and its unit eigenvector (may be NULL), by
// cyclic Jacobi rotations (Golub & Van Loan, Matrix Computations, 4th ed., sec. 8.5).
double dense_least_eigenvalue(double *matrix, size_t count, double *ret_vector);

#endif
