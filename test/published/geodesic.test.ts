import { describe, expect, test } from "vitest";
import { geodesic_m } from "../../packages/sim-core/src/field/geodesic.js";

const dms = (sign: 1 | -1, degrees: number, minutes: number, seconds: number): number =>
  sign * (degrees + minutes / 60 + seconds / 3600);
const place = (lat_deg: number, lon_deg: number) => ({ lat_deg, lon_deg });

const EQUATOR_m = 6378137;
const FLATTENING = 1 / 298.257223563;
const E2 = FLATTENING * (2 - FLATTENING);
const RAD = Math.PI / 180;

describe("the shortest way over the ellipsoid", () => {
  test("Flinders Peak to Buninyong: 54 972.271 m, Geoscience Australia, GDA technical manual (on GRS 80, 0.1 mm from WGS 84)", () => {
    const flinders = place(dms(-1, 37, 57, 3.7203), dms(1, 144, 25, 29.5244));
    const buninyong = place(dms(-1, 37, 39, 10.1561), dms(1, 143, 55, 35.3839));
    expect(geodesic_m(flinders, buninyong)).toBeCloseTo(54972.271, 3);
    expect(geodesic_m(buninyong, flinders)).toBeCloseTo(54972.271, 3);
  });

  test("40.6 N 73.8 W to 51.6 N 0.5 W: 5 551 759.400 m, GeographicLib's documentation of GeodSolve, on WGS 84", () => {
    expect(Math.abs(geodesic_m(place(40.6, -73.8), place(51.6, -0.5)) - 5551759.400319)).toBeLessThan(0.0005);
  });

  test.each([0, 17, 52, -41.3, 80])(
    "a few metres at %d°: the radii of the ellipsoid (Rapp, Geometric Geodesy I)",
    (lat_deg) => {
      const bent = 1 - E2 * Math.sin(lat_deg * RAD) ** 2;
      const apart_deg = 5e-5;
      const alongMeridian_m = ((EQUATOR_m * (1 - E2)) / bent ** 1.5) * apart_deg * RAD;
      const north = geodesic_m(place(lat_deg - apart_deg / 2, 20), place(lat_deg + apart_deg / 2, 20));
      expect(north).toBeCloseTo(alongMeridian_m, 6);
      const alongParallel_m = (EQUATOR_m / Math.sqrt(bent)) * Math.cos(lat_deg * RAD) * apart_deg * RAD;
      expect(geodesic_m(place(lat_deg, 179.99997), place(lat_deg, -179.99998))).toBeCloseTo(alongParallel_m, 6);
    },
  );

  test("nothing is nothing, and what lies opposite on the globe is half way round", () => {
    expect(geodesic_m(place(52, -1), place(52, -1))).toBe(0);
    const half_m = geodesic_m(place(0.1, 0), place(-0.1, 179.9));
    expect(half_m).toBeGreaterThan(19.9e6);
    expect(half_m).toBeLessThan(20.1e6);
    expect(geodesic_m(place(90, 0), place(-90, 0))).toBeCloseTo(2 * 10001965.729, 2);
  });
});
