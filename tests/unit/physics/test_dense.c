// SPDX-License-Identifier: GPL-3.0-or-later
// Small matrices: systems made from a chosen answer, and matrices made from chosen eigenvalues.
#include "physics/dense.h"

#include "random.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

enum { COLUMNS_MAX = 3 };

static void random_matrix(struct random *random, size_t rows, size_t columns, double *ret) {
    for (size_t i = 0; i < rows * columns; i++)
        ret[i] = 2 * random_uniform(random) - 1;
}

static void multiply(const double *a, const double *b, size_t rows, size_t inner, size_t columns, double *ret) {
    for (size_t i = 0; i < rows; i++)
        for (size_t j = 0; j < columns; j++) {
            double sum = 0;
            for (size_t k = 0; k < inner; k++)
                sum += a[i * inner + k] * b[k * columns + j];
            ret[i * columns + j] = sum;
        }
}

static double largest_difference(const double *a, const double *b, size_t count) {
    double most = 0;
    for (size_t i = 0; i < count; i++)
        most = fmax(most, fabs(a[i] - b[i]));
    return most;
}

// A diagonal of 0 forces an exchange of rows in every step.
START_TEST(elimination_finds_the_chosen_answer) {
    struct random random = {3};
    for (int n = 0; n < 300; n++) {
        size_t count = 1 + random_below(&random, DENSE_MAX), columns = 1 + random_below(&random, COLUMNS_MAX);
        double matrix[DENSE_MAX * DENSE_MAX], x[DENSE_MAX * COLUMNS_MAX], right[DENSE_MAX * COLUMNS_MAX];
        random_matrix(&random, count, count, matrix);
        for (size_t i = 0; i < count && count > 1; i++)
            matrix[i * count + i] = 0;
        // a cyclic shift, so that the matrix is far from singular
        for (size_t i = 0; i < count; i++)
            matrix[i * count + (i + 1) % count] += 2 * (double)count;
        random_matrix(&random, count, columns, x);
        multiply(matrix, x, count, count, columns, right);
        ck_assert(dense_eliminate(matrix, count, right, columns));
        ck_assert_double_lt(largest_difference(right, x, count * columns), 1e-11);
    }
}
END_TEST

START_TEST(a_singular_matrix_is_told) {
    double zero_column[] = {1, 0, 2, 0}, right[] = {1, 1};
    ck_assert(!dense_eliminate(zero_column, 2, right, 1));
    double same_rows[] = {1, 2, 2, 4};
    ck_assert(!dense_eliminate(same_rows, 2, right, 1));
    double zero[] = {0};
    ck_assert(!dense_eliminate(zero, 1, right, 1));
}
END_TEST

// B B' + I is positive definite whatever B is.
START_TEST(cholesky_finds_the_chosen_answer) {
    struct random random = {4};
    for (int n = 0; n < 300; n++) {
        size_t count = 1 + random_below(&random, DENSE_MAX);
        double b[DENSE_MAX * DENSE_MAX], turned[DENSE_MAX * DENSE_MAX], matrix[DENSE_MAX * DENSE_MAX];
        double x[DENSE_MAX], right[DENSE_MAX], found[DENSE_MAX];
        random_matrix(&random, count, count, b);
        for (size_t i = 0; i < count; i++)
            for (size_t j = 0; j < count; j++)
                turned[j * count + i] = b[i * count + j];
        multiply(b, turned, count, count, count, matrix);
        for (size_t i = 0; i < count; i++)
            matrix[i * count + i] += 1;
        random_matrix(&random, count, 1, x);
        multiply(matrix, x, count, count, 1, right);
        for (size_t i = 0; i < count; i++) // the upper triangle is not to be read
            for (size_t j = i + 1; j < count; j++)
                matrix[i * count + j] = NAN;
        ck_assert(dense_cholesky_solve(matrix, count, right, found));
        ck_assert_double_lt(largest_difference(found, x, count), 1e-11);
        dense_solve_factored(matrix, count, right); // the factor is left behind
        ck_assert_double_lt(largest_difference(right, x, count), 1e-11);
    }
}
END_TEST

// Q diag(values) Q' with Q a product of reflections I - 2 v v' has these eigenvalues.
static void matrix_of_eigenvalues(struct random *random, const double *values, size_t count, double *ret) {
    memset(ret, 0, count * count * sizeof *ret);
    for (size_t i = 0; i < count; i++)
        ret[i * count + i] = values[i];
    for (int n = 0; n < 3; n++) {
        double v[DENSE_MAX], square = 0, reflection[DENSE_MAX * DENSE_MAX], half[DENSE_MAX * DENSE_MAX];
        random_matrix(random, count, 1, v);
        for (size_t i = 0; i < count; i++)
            square += v[i] * v[i];
        for (size_t i = 0; i < count; i++)
            for (size_t j = 0; j < count; j++)
                reflection[i * count + j] = (i == j) - 2 * v[i] * v[j] / square;
        multiply(reflection, ret, count, count, count, half);
        multiply(half, reflection, count, count, count, ret);
    }
}

START_TEST(eigenvalues_as_chosen) {
    struct random random = {5};
    for (int n = 0; n < 200; n++) {
        size_t count = 1 + random_below(&random, DENSE_MAX), negative = 0, least = 0;
        double values[DENSE_MAX], matrix[DENSE_MAX * DENSE_MAX], used[DENSE_MAX * DENSE_MAX], vector[DENSE_MAX];
        for (size_t i = 0; i < count; i++) {
            values[i] = (double)i + 1 - 0.3 * (double)count; // apart from each other, none of them 0
            values[i] += values[i] < 0 ? -0.05 : 0.05;
            negative += values[i] < 0;
            least = values[i] < values[least] ? i : least;
        }
        matrix_of_eigenvalues(&random, values, count, matrix);
        memcpy(used, matrix, sizeof used);
        ck_assert_uint_eq(dense_negative_eigenvalues(used, count), negative);
        memcpy(used, matrix, sizeof used);
        double found = dense_least_eigenvalue(used, count, vector), square = 0, image[DENSE_MAX];
        ck_assert_double_lt(fabs(found - values[least]), 1e-10);
        multiply(matrix, vector, count, count, 1, image);
        for (size_t i = 0; i < count; i++) {
            square += vector[i] * vector[i];
            ck_assert_double_lt(fabs(image[i] - found * vector[i]), 1e-8);
        }
        ck_assert_double_lt(fabs(square - 1), 1e-10);
    }
    double vanishing[] = {0, 1, 1, 0};
    ck_assert_uint_eq(dense_negative_eigenvalues(vanishing, 2), SIZE_MAX);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("dense");
    TCase *tests = tcase_create("dense");
    tcase_add_test(tests, elimination_finds_the_chosen_answer);
    tcase_add_test(tests, a_singular_matrix_is_told);
    tcase_add_test(tests, cholesky_finds_the_chosen_answer);
    tcase_add_test(tests, eigenvalues_as_chosen);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
