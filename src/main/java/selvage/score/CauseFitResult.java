package selvage.score;

import java.util.List;

/**
 * Causes fitted to errors.
 *
 * @param chosen positions in the model's list of causes
 * @param parameters of the model, zero where a cause was not chosen
 * @param deviations standard uncertainty of each parameter
 * @param shares of the sum of squares, a chosen cause each
 * @param rivals positions of those that could stand in a chosen cause's place
 * @param unexplained share of the sum of squares that is left
 * @param freedom degrees of freedom that are left
 */
@SuppressWarnings("ArrayRecordComponent") // package-private, handed from one step to the next
record CauseFitResult(
    List<Integer> chosen,
    double[] parameters,
    double[] deviations,
    double[] shares,
    List<List<Integer>> rivals,
    double unexplained,
    int freedom) {}
