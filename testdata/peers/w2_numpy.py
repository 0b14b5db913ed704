"""Workload W2 in NumPy, vectorised: the farms of a county in one block, totals by one matrix product,
percentiles by partition. Prints seconds and those of processor time, and writes the figures,
as choices/main.go does.

python3 w2_numpy.py FILE OUT REPEATS, with the system's python3 and Debian's python3-numpy.
"""
import re, statistics, sys, time
import numpy as np

NOISE = 1 + 1e-12
numbers = [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", open(sys.argv[1]).read())]
take = lambda n: [numbers.pop(0) for _ in range(n)]
counties, farms, draws = (int(x) for x in take(3))
together, against, guarantee, most = take(4)
crops = [take(12) for _ in range(3)]
TABLE = np.array([statistics.NormalDist().inv_cdf((i + 0.5) / 4096) for i in range(4096)])
AT = np.arange(draws, dtype=np.uint64)
G, A, B = (np.uint64(x) for x in (0x9E3779B97F4A7C15, 0xBF58476D1CE4E5B9, 0x94D049BB133111EB))
shift = [np.uint64(x) for x in range(64)]


def mix(keys):
    z = (keys + shift[1]) * G
    z = (z ^ (z >> shift[30])) * A
    z = (z ^ (z >> shift[27])) * B
    return z ^ (z >> shift[31])


def normals(stream, k=1):
    """Those of k streams, one a row."""
    first = np.arange(stream, stream + k, dtype=np.uint64) << shift[20]
    return TABLE[mix(first[:, None] + AT) >> shift[52]]


def uniform(i):
    return (mix(np.asarray(i, dtype=np.uint64) + np.uint64(1 << 60)) >> shift[11]) / 2.0 ** 53


def rounded(x):
    x = x * (100.0 * NOISE)
    x += 0.5
    np.floor(x, out=x)
    x /= 100
    return x


price, spread, target, loan, benchmark, low, high, sd, lowpaid, highpaid, lowacres, highacres = (np.array(x) for x in zip(*crops))
normal_yield = low + (high - low) * uniform(np.arange(counties * 3).reshape(counties, 3))
at = counties * 3 + 2 * np.arange(counties * farms * 3).reshape(counties, farms, 3)
acres = lowacres + (highacres - lowacres) * uniform(at)
paid = acres * (lowpaid + (highpaid - lowpaid) * uniform(at + 1))

# weights[county] is a matrix: a row for each farm and choice, a column for each rate series, 0 where it is not chosen
bit = np.array([[choice >> k & 1 for k in range(3)] for choice in range(8)])
weights = np.concatenate([paid[:, :, None, :] * (1 - bit), acres[:, :, None, :] * bit], axis=3).reshape(counties, farms * 8, 6)
k5, part5 = (draws - 1) * 5 // 100, (draws - 1) * 5 % 100 / 100
k95, part95 = (draws - 1) * 95 // 100, (draws - 1) * 95 % 100 / 100
PLACES = [k5, k5 + 1, k95, k95 + 1]


def run(many):
    figures, highest = np.empty((many, farms * 8, 3)), np.empty((many, farms))
    common = normals(0)
    shocks = np.sqrt(together) * common + np.sqrt(1 - together) * normals(1, 3)
    prices = rounded(price[:, None] * np.exp(spread[:, None] * shocks - spread[:, None] ** 2 / 2))
    actual = np.maximum(prices, loan[:, None])
    rates = np.empty((6, draws))
    rates[:3] = rounded(np.maximum(0, target[:, None] - actual))
    own, lean = np.sqrt(1 - against ** 2), against * shocks
    totals = np.empty((farms * 8, draws))
    for c in range(many):
        n = normal_yield[c][:, None]
        crop = rounded(np.maximum(0, n + sd[:, None] * n * (lean + own * normals(4 + 3 * c, 3))))
        revenue = rounded(rounded(n) * benchmark[:, None])
        rates[3:] = np.minimum(rounded(most * revenue), np.maximum(0, rounded(rounded(guarantee * revenue) - rounded(crop * actual))))
        np.matmul(weights[c], rates, out=totals)
        mean = weights[c] @ rates.mean(axis=1)
        totals.partition(PLACES, axis=1)
        figures[c, :, 0] = mean
        figures[c, :, 1] = totals[:, k5] + part5 * (totals[:, k5 + 1] - totals[:, k5])
        figures[c, :, 2] = totals[:, k95] + part95 * (totals[:, k95 + 1] - totals[:, k95])
        highest[c] = mean.reshape(farms, 8).argmax(axis=1)
    return figures, highest


if __name__ == "__main__":
    run(min(counties, 50))  # warms up
    for _ in range(int(sys.argv[3])):
        start, spent = time.perf_counter(), time.process_time()
        figures, highest = run(counties)
        print("%.6f %.6f" % (time.perf_counter() - start, time.process_time() - spent))
    np.concatenate([figures.ravel(), highest.ravel()]).tofile(sys.argv[2])
