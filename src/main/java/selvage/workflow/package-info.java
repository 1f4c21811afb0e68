/**
 * One class for each thing that a person does: survey a job, stamp it, rehearse, score, compare.
 * The command line, the hot folder and the web call these and show what comes back.
 */
package selvage.workflow;
