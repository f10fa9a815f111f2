// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/dense.h"

#include <assert.h>
#include <math.h>
#include <string.h>

// Lower factor in place.
static bool cholesky(double *matrix, size_t count) {
    for (size_t j = 0; j < count; j++)
        for (size_t i = j; i < count; i++) {
            double sum = matrix[i * count + j];
            for (size_t k = 0; k < j; k++)
                sum -= matrix[i * count + k] * matrix[j * count + k];
            if (i > j)
                matrix[i * count + j] = sum / matrix[j * count + j];
            else if (sum > 0 && isfinite(sum))
                matrix[j * count + j] = sqrt(sum);
            else
                return false;
        }
    return true;
}

bool dense_cholesky_solve(double *matrix, size_t count, const double *right, double *ret_x) {
    assert(count <= DENSE_MAX);
    if (!cholesky(matrix, count))
        return false;
    for (size_t i = 0; i < count; i++) {
        double sum = right[i];
        for (size_t k = 0; k < i; k++)
            sum -= matrix[i * count + k] * ret_x[k];
        ret_x[i] = sum / matrix[i * count + i];
    }
    for (size_t i = count; i-- > 0;) {
        double sum = ret_x[i];
        for (size_t k = i + 1; k < count; k++)
            sum -= matrix[k * count + i] * ret_x[k];
        ret_x[i] = sum / matrix[i * count + i];
    }
    return true;
}

static double off_diagonal(const double *matrix, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < i; j++)
            sum += matrix[i * count + j] * matrix[i * count + j];
    return sum;
}

static void turn(double *at_p, double *at_q, double c, double s) {
    double p = *at_p, q = *at_q;
    *at_p = c * p - s * q;
    *at_q = s * p + c * q;
}

// Makes element (p, q) zero; the same rotation goes into the columns of `vectors`.
static void rotate(double *matrix, double *vectors, size_t count, size_t p, size_t q) {
    double at = matrix[p * count + q];
    if (at == 0)
        return;
    double tau = (matrix[q * count + q] - matrix[p * count + p]) / (2 * at);
    double t = (tau >= 0 ? 1 : -1) / (fabs(tau) + sqrt(1 + tau * tau));
    double c = 1 / sqrt(1 + t * t), s = t * c;
    for (size_t k = 0; k < count; k++)
        turn(&matrix[k * count + p], &matrix[k * count + q], c, s);
    for (size_t k = 0; k < count; k++) {
        turn(&matrix[p * count + k], &matrix[q * count + k], c, s);
        turn(&vectors[k * count + p], &vectors[k * count + q], c, s);
    }
}

double dense_least_eigenvalue(double *matrix, size_t count, double *ret_vector) {
    enum { SWEEPS_MAX = 30 }; // converges quadratically; ten are ample
    assert(count >= 1 && count <= DENSE_MAX);
    double vectors[DENSE_MAX * DENSE_MAX] = {0};
    for (size_t i = 0; i < count; i++)
        vectors[i * count + i] = 1;
    for (int sweep = 0; sweep < SWEEPS_MAX && off_diagonal(matrix, count) > 1e-30; sweep++)
        for (size_t p = 0; p + 1 < count; p++)
            for (size_t q = p + 1; q < count; q++)
                rotate(matrix, vectors, count, p, q);
    size_t least = 0;
    for (size_t i = 1; i < count; i++)
        if (matrix[i * count + i] < matrix[least * count + least])
            least = i;
    for (size_t k = 0; ret_vector && k < count; k++)
        ret_vector[k] = vectors[k * count + least];
    return matrix[least * count + least];
}
