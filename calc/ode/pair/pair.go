// Package pair is the coefficients of Dormand and Prince's pair of order 5(4), seven
// stages, the last of a step being the first of the next (J. Comput. Appl. Math. 6:19,
// 1980; the continuous extension: Hairer, Nørsett & Wanner, Solving Ordinary
// Differential Equations I, 1993, II.6). Nothing comes in, numbers go out: the general
// solver and the fermentation's own stand on the same ones. It knows neither.
package pair

const (
	C2, C3, C4, C5 = 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9

	A21                     = 1.0 / 5
	A31, A32                = 3.0 / 40, 9.0 / 40
	A41, A42, A43           = 44.0 / 45, -56.0 / 15, 32.0 / 9
	A51, A52, A53, A54      = 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729
	A61, A62, A63, A64, A65 = 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656
	B1, B3, B4, B5, B6      = 35.0 / 384, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84

	// E = B - B^, the difference to the embedded solution of order 4.
	E1, E3, E4, E5, E6, E7 = 71.0 / 57600, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40

	// D: weights of the continuous extension.
	D1 = -12715105075.0 / 11282082432
	D3 = 87487479700.0 / 32700410799
	D4 = -10690763975.0 / 1880347072
	D5 = 701980252875.0 / 199316789632
	D6 = -1453857185.0 / 822651844
	D7 = 69997945.0 / 29380423
)
