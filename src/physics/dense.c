// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/dense.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

bool dense_factor(double *matrix, size_t count) {
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

void dense_solve_factored(const double *factor, size_t count, double *right) {
    for (size_t i = 0; i < count; i++) {
        double sum = right[i];
        for (size_t k = 0; k < i; k++)
            sum -= factor[i * count + k] * right[k];
        right[i] = sum / factor[i * count + i];
    }
    for (size_t i = count; i-- > 0;) {
        double sum = right[i];
        for (size_t k = i + 1; k < count; k++)
            sum -= factor[k * count + i] * right[k];
        right[i] = sum / factor[i * count + i];
    }
}

bool dense_cholesky_solve(double *matrix, size_t count, const double *right, double *ret_x) {
    assert(count <= DENSE_MAX);
    if (!dense_factor(matrix, count))
        return false;
    memmove(ret_x, right, count * sizeof *ret_x);
    dense_solve_factored(matrix, count, ret_x);
    return true;
}

size_t dense_negative_eigenvalues(double *matrix, size_t count) {
    size_t negative = 0;
    for (size_t k = 0; k < count; k++) {
        double pivot = matrix[k * count + k];
        if (!(fabs(pivot) > 0))
            return SIZE_MAX;
        negative += pivot < 0;
        for (size_t i = k + 1; i < count; i++) {
            double factor = matrix[i * count + k] / pivot;
            for (size_t j = k + 1; j <= i; j++)
                matrix[i * count + j] -= factor * matrix[j * count + k];
        }
    }
    return negative;
}

static void exchange(double *a, double *b, size_t length) {
    for (size_t k = 0; k < length; k++) {
        double kept = a[k];
        a[k] = b[k];
        b[k] = kept;
    }
}

static size_t largest_below(const double *matrix, size_t count, size_t k) {
    size_t best = k;
    for (size_t i = k + 1; i < count; i++)
        if (fabs(matrix[i * count + k]) > fabs(matrix[best * count + k]))
            best = i;
    return best;
}

static void clear_below(double *matrix, size_t count, double *right, size_t columns, size_t k) {
    double inverse = 1 / matrix[k * count + k];
    for (size_t i = k + 1; i < count; i++) {
        double factor = matrix[i * count + k] * inverse;
        for (size_t j = k + 1; j < count; j++)
            matrix[i * count + j] -= factor * matrix[k * count + j];
        for (size_t c = 0; c < columns; c++)
            right[i * columns + c] -= factor * right[k * columns + c];
    }
}

bool dense_eliminate(double *matrix, size_t count, double *right, size_t columns) {
    for (size_t k = 0; k < count; k++) {
        size_t pivot = largest_below(matrix, count, k);
        if (!(fabs(matrix[pivot * count + k]) > 0))
            return false;
        if (pivot != k) {
            exchange(matrix + pivot * count, matrix + k * count, count);
            exchange(right + pivot * columns, right + k * columns, columns);
        }
        clear_below(matrix, count, right, columns, k);
    }
    for (size_t k = count; k-- > 0;)
        for (size_t c = 0; c < columns; c++) {
            double sum = right[k * columns + c];
            for (size_t j = k + 1; j < count; j++)
                sum -= matrix[k * count + j] * right[j * columns + c];
            right[k * columns + c] = sum / matrix[k * count + k];
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
