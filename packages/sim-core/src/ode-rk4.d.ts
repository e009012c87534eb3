declare module "ode-rk4" {
  export type Derivative = (dydt: Float64Array, y: Float64Array, t: number) => void;
  export interface Integrator {
    readonly n: number;
    y: Float64Array;
    t: number;
    dt: number;
    deriv: Derivative;
    step(): this;
    steps(n: number): this;
  }
  export default function rk4(y0: Float64Array, deriv: Derivative, t0: number, dt: number): Integrator;
}
