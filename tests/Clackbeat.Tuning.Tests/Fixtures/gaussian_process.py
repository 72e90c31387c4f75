"""Independent figures for GaussianProcessTests: NumPy's dense solver on the textbook formulas (Rasmussen & Williams 2006,
eqs. 2.30, 2.41 and 2.42 with a constant as the only basis function). Run: python3 gaussian_process.py"""
import numpy as np

x = np.array([0.1, 0.35, 0.5, 0.8])
y = np.array([-9.2, -9.0, -8.93, -9.1])
noise = np.array([0.02, 0.015, 0.02, 0.03])
length, height = 0.4, 0.25
k = lambda a, b: height**2 * np.exp(-0.5 * ((a[:, None] - b[None, :]) / length) ** 2)
K = k(x, x) + np.diag(noise**2 + 1e-10)
Ki = np.linalg.inv(K)
m = (Ki.sum(0) @ y) / Ki.sum()
r = y - m
at = np.array([0.0, 0.42, 1.0])
mean = m + k(at, x) @ Ki @ r
var = height**2 - np.einsum("ij,jk,ik->i", k(at, x), Ki, k(at, x))
var += (1 - (k(at, x) @ Ki).sum(1)) ** 2 / Ki.sum()
np.set_printoptions(precision=12)
print("mean", mean, "spread", np.sqrt(var))
print("log likelihood", -0.5 * r @ Ki @ r - 0.5 * np.linalg.slogdet(K)[1] - 0.5 * len(x) * np.log(2 * np.pi))
