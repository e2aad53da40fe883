"""The greatest eigenvalue of a sparse operator by scipy.sparse.linalg.eigs with SuperLU: the reference of modeSolver.bench.ts.
Arguments: a file of the operator's entries (size, count as uint32; rows, columns as uint32; values as float64) and a shift
above the value. Prints processor seconds, factors included, and the value."""
import json, sys, time
import numpy as np
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import eigs

RUNS = 5
raw = open(sys.argv[1], "rb").read()
size, count = (int(each) for each in np.frombuffer(raw, np.uint32, 2))
rows, columns = np.frombuffer(raw, np.uint32, 2 * count, 8).reshape(2, count)
values = np.frombuffer(raw, np.float64, count, 8 + 8 * count)
operator = csc_matrix((values, (rows, columns)), shape=(size, size))

times = []
for _ in range(RUNS):
    start = time.process_time()
    found = eigs(operator, k=1, sigma=float(sys.argv[2]), which="LM", tol=1e-8, return_eigenvectors=True)
    times.append(time.process_time() - start)
print(json.dumps({"seconds": float(np.median(times)), "value": float(found[0][0].real), "size": size, "entries": count}))
