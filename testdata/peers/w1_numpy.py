"""Workload W1 in NumPy, vectorised, percentiles by partition. Prints seconds and the 36 means.

python3 w1_numpy.py DRAWS REPEATS, with the system's python3 and Debian's python3-numpy.
"""
import os, re, sys, time
import numpy as np

NOISE = 1 + 1e-12
numbers = [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "w1.txt")).read())]


def take(n):
    global numbers
    part, numbers = numbers[:n], numbers[n:]
    return part


def rounded(x, decimals=2):
    s = 10.0 ** decimals
    x *= s * 1.0
    x *= NOISE
    x += 0.5
    np.floor(x, out=x)
    x /= s
    return x


years = int(take(1)[0])
limit = take(1)[0]
crops = []
for _ in range(3):
    k = dict(prices=take(6), spread=take(3), yields=take(6), sd=take(1)[0], past=take(6), pastyields=take(6), reference=take(6))
    k["loan"], k["share"], k["top"], k["guarantee"], k["most"] = take(5)
    k["base"], k["acres"], k["payment"] = take(3)
    sigma, carry = [k["spread"][0]], [0.0]
    for t in range(1, years):
        sigma.append(float(np.hypot(k["spread"][2] * sigma[-1], k["spread"][1])))
        carry.append(k["spread"][2] * sigma[-2] / sigma[-1])
    k["sigma"], k["carry"] = sigma, carry
    crops.append(k)
loadings = np.array([take(6) for _ in range(6)])


def olympic(five):
    total = five[0] + five[1]
    low, high = np.minimum(five[0], five[1]), np.maximum(five[0], five[1])
    for x in five[2:]:
        total = total + x
        np.minimum(low, x, out=low)
        np.maximum(high, x, out=high)
    total -= low
    total -= high
    total /= 3
    return total


def describe(x, out):
    n = len(x)
    places = sorted({int(p * (n - 1)) + d for p in (.05, .25, .5, .75, .95) for d in (0, 1)})
    part = np.partition(x, places)
    out.append((x.mean(), x.std(ddof=1) / n ** 0.5, (x > 0).mean(), [part[i] for i in places]))


def run(n, rng):
    series, ahead = [], []
    price = [[np.full(n, k["past"][i]) for k in crops] for i in range(6)]
    crop = [[np.full(n, k["pastyields"][i]) for k in crops] for i in range(6)]
    before = [None] * 3
    for t in range(years):
        z = loadings @ rng.standard_normal((6, n))
        prices, yields, pays = [], [], []
        for i, k in enumerate(crops):
            x = z[i]
            if t:
                x = k["carry"][t] * before[i] + np.sqrt(1 - k["carry"][t] ** 2) * x
            before[i] = x
            prices.append(rounded(k["prices"][t] * np.exp(k["sigma"][t] * x - k["sigma"][t] ** 2 / 2)))
            yields.append(rounded(np.maximum(0, k["yields"][t] + k["sd"] * z[3 + i])))
        price.append(prices)
        crop.append(yields)
        for i, k in enumerate(crops):
            five = [price[t + j][i] for j in range(5)]
            target = rounded(np.minimum(round(k["top"] * k["reference"][t], 2), np.maximum(k["reference"][t], rounded(k["share"] * olympic(five)))))
            bench = rounded(olympic([np.maximum(p, target) for p in five]))
            revenue = rounded(rounded(olympic([crop[t + j][i] for j in range(5)])) * bench)
            guarantee, most = rounded(k["guarantee"] * revenue), rounded(k["most"] * revenue)
            actual = np.maximum(prices[i], k["loan"])
            per = k["acres"] / k["base"]
            plc = rounded(np.maximum(0, target - actual)) * (k["payment"] * per)
            arc = np.minimum(most, np.maximum(0, rounded(guarantee - rounded(yields[i] * actual)))) * per
            pays.append((plc, arc))
            describe(plc, series)
            describe(arc, series)
            ahead.append((arc > plc).mean())
        for choice in range(8):
            total = sum(crops[i]["base"] * pays[i][choice >> i & 1] for i in range(3))
            describe(np.minimum(limit, total), [])
    return [s[0] for s in series]


if __name__ == "__main__":
    n, repeats = int(sys.argv[1]), int(sys.argv[2])
    rng = np.random.default_rng(1)
    for _ in range(repeats):
        start = time.perf_counter()
        means = run(n, rng)
        print("%.6f" % (time.perf_counter() - start), " ".join("%.6f" % m for m in means))
