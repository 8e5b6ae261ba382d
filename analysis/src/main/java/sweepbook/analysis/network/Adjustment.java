package sweepbook.analysis.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * The places that disagree least with all observations of a network, how well they are known, and which observation
 * does not fit.
 */
public final class Adjustment {
    /** Two normalised residuals nearer than this are one: no test can tell their observations apart. */
    private static final double ALIKE = 1e-6;

    private final Network.Graph graph;
    private final Sigma sigma;
    private final Reliability reliability;
    private final StarMesh mesh;
    private final double[] place_mm;
    private final int degreesOfFreedom;
    private final double sigma0;
    private final List<Residual> residuals;

    Adjustment(Network.Graph graph, Sigma sigma, Reliability reliability) {
        this.graph = graph;
        this.sigma = sigma;
        this.reliability = reliability;
        this.mesh = new StarMesh(graph.number.size(), graph.from, graph.to, graph.weight);
        List<Observation> observations = graph.network.observations();
        this.place_mm = solve(observations);
        this.degreesOfFreedom = observations.size() - graph.number.size();
        double weighted = 0;
        double[] residual_mm = new double[observations.size()];
        for (int e = 0; e < residual_mm.length; e++) {
            Observation observation = observations.get(e);
            residual_mm[e] = place(observation.to())
                    - place(observation.from())
                    - observation.difference().value();
            weighted += graph.weight[e] * residual_mm[e] * residual_mm[e];
        }
        this.sigma0 = degreesOfFreedom > 0 ? Math.sqrt(weighted / degreesOfFreedom) : Double.NaN;
        this.residuals = residuals(observations, residual_mm);
    }

    private double[] solve(List<Observation> observations) {
        double[] load = new double[graph.number.size()];
        for (int e = 0; e < observations.size(); e++) {
            Observation observation = observations.get(e);
            double difference_mm = observation.difference().value();
            if (graph.to[e] != StarMesh.GROUND) {
                load[graph.to[e]] += graph.weight[e] * (difference_mm + groundPlace(observation.from()));
            }
            if (graph.from[e] != StarMesh.GROUND) {
                load[graph.from[e]] += graph.weight[e] * (groundPlace(observation.to()) - difference_mm);
            }
        }
        return mesh.solve(load);
    }

    private double groundPlace(String point) {
        return graph.ground_mm.getOrDefault(point, 0.0);
    }

    private double place(String point) {
        Integer number = graph.number.get(point);
        return number == null ? groundPlace(point) : place_mm[number];
    }

    private List<Residual> residuals(List<Observation> observations, double[] residual_mm) {
        List<Residual> all = new ArrayList<>(residual_mm.length);
        for (int e = 0; e < residual_mm.length; e++) {
            double taken = graph.weight[e] * mesh.varianceOfEdge(graph.from[e], graph.to[e]);
            double redundancy = Math.max(0, Math.min(1, 1 - taken));
            double u_mm = observations.get(e).difference().stdU() * scale();
            Residual bare = new Residual(observations.get(e), residual_mm[e], redundancy, 0, Double.POSITIVE_INFINITY);
            all.add(
                    bare.isControlled() && u_mm > 0
                            ? new Residual(
                                    bare.observation(),
                                    residual_mm[e],
                                    redundancy,
                                    residual_mm[e] / (u_mm * Math.sqrt(redundancy)),
                                    reliability.detectableShift() * u_mm / Math.sqrt(redundancy))
                            : bare);
        }
        return List.copyOf(all);
    }

    private double scale() {
        return sigma == Sigma.AS_STATED || degreesOfFreedom == 0 ? 1 : sigma0;
    }

    /** Observations beyond the number that would just do. */
    public int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /** How the observations agree against their stated uncertainties: near 1 as they should; NaN if none is to spare. */
    public double sigma0() {
        return sigma0;
    }

    /** One for each observation, in their order. */
    public List<Residual> residuals() {
        return residuals;
    }

    /** Points that no chain of observations ties to a fixed one, each group under the name of one of them. */
    public Map<String, List<String>> hangingFree() {
        Map<String, List<String>> hanging = new TreeMap<>();
        graph.island.forEach((point, island) -> {
            if (!island.equals(Network.Graph.FIXED)) {
                hanging.computeIfAbsent(island, name -> new ArrayList<>()).add(point);
            }
        });
        hanging.values().forEach(points -> points.sort(Comparator.naturalOrder()));
        return hanging;
    }

    /** The place of a point in the scale of the fixed ones. */
    public Finding<Estimate> placeOf(String point) {
        String island = graph.island.get(point);
        if (island == null) {
            return Finding.notDetermined("no touch names " + point);
        }
        if (!island.equals(Network.Graph.FIXED)) {
            return Finding.notDetermined(
                    point + " hangs free: no chain of touches ties it to a point whose place is given");
        }
        int number = numberOf(point);
        return Finding.found(estimate(place(point), Math.max(0, at(potential(StarMesh.GROUND, number), number))));
    }

    /** The distance from one point to another, with everything their places share taken out. */
    public Finding<Estimate> difference(String from, String to) {
        Finding<double[]> potential = potential(from, to);
        return potential.map(answer ->
                estimate(place(to) - place(from), Math.max(0, at(answer, numberOf(to)) - at(answer, numberOf(from)))));
    }

    /** With which weight each observation goes into the distance from one point to another, in their order. */
    public Finding<double[]> weights(String from, String to) {
        return potential(from, to).map(answer -> {
            double[] weight = new double[graph.weight.length];
            for (int e = 0; e < weight.length; e++) {
                weight[e] = graph.weight[e] * (at(answer, graph.to[e]) - at(answer, graph.from[e]));
            }
            return weight;
        });
    }

    /** How each place answers a pull from one point to another: a row of the covariance. */
    private Finding<double[]> potential(String from, String to) {
        String one = graph.island.get(from);
        String other = graph.island.get(to);
        if (one == null || other == null) {
            return Finding.notDetermined("no touch names " + (one == null ? from : to));
        }
        if (!one.equals(other)) {
            return Finding.notDetermined(
                    from + " and " + to
                            + " hang free of each other: touch both from one stand of the indicator, or a third thing with each");
        }
        return Finding.found(potential(numberOf(from), numberOf(to)));
    }

    private double[] potential(int from, int to) {
        double[] load = new double[place_mm.length];
        if (from != StarMesh.GROUND) {
            load[from] -= 1;
        }
        if (to != StarMesh.GROUND) {
            load[to] += 1;
        }
        return mesh.solve(load);
    }

    private static double at(double[] answer, int point) {
        return point == StarMesh.GROUND ? 0 : answer[point];
    }

    private int numberOf(String point) {
        return graph.number.getOrDefault(point, StarMesh.GROUND);
    }

    private Estimate estimate(double value_mm, double variance) {
        double freedom =
                sigma == Sigma.AS_STATED || degreesOfFreedom == 0 ? Double.POSITIVE_INFINITY : degreesOfFreedom;
        return new Estimate(value_mm, scale() * Math.sqrt(variance), freedom);
    }

    /** The normalised residual beyond which an observation does not fit. */
    public double critical() {
        return sigma == Sigma.AS_STATED ? reliability.critical() : reliability.criticalTau(degreesOfFreedom);
    }

    /**
     * The observation that fits worst, if it fits too badly to be chance; empty if all fit. More than one only where
     * the network cannot tell them apart: then each of them may be the one to do again.
     */
    public List<Residual> misfits() {
        double worst = residuals.stream()
                .mapToDouble(residual -> Math.abs(residual.normalised()))
                .max()
                .orElse(0);
        if (!(worst > critical())) {
            return List.of();
        }
        return residuals.stream()
                .filter(residual -> Math.abs(residual.normalised()) > worst - ALIKE * worst)
                .toList();
    }

    /** Observations in which no mistake could be found, because nothing else controls them. */
    public List<Residual> uncontrolled() {
        return residuals.stream().filter(residual -> !residual.isControlled()).toList();
    }
}
