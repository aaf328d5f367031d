/** The model underneath geomagnetism, which declares types for its front only. That front ends each edition before its time. */
declare module 'geomagnetism/lib/model.js' {
  type Coefficients = Readonly<{ name: string; epoch: number; start_date: string; end_date: string }>;

  // biome-ignore lint/style/noDefaultExport: the package exports nothing else
  export default class Model {
    constructor(coefficients: Coefficients);
    /** The field of one moment. Throws outside `start_date` to `end_date`. */
    getTimedModel(date: Date): {
      /** @param place latitude, longitude, degrees; then kilometres above the ellipsoid */
      point(place: readonly number[]): { decl: number };
    };
  }
}
