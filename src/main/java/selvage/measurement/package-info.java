/**
 * Measurements of printed strips: {@link selvage.measurement.MeasurementReader} makes readings in
 * Lab (D50, 2°, absolute) of CGATS text, {@link selvage.measurement.Matching} says which reading
 * belongs to which patch, {@link selvage.measurement.VirtualDevice} invents a measurement. Scores
 * nothing.
 */
package selvage.measurement;
