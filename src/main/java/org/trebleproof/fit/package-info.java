/**
 * Parameters and priors, weighted least squares, covariance, profile intervals, model choice; no
 * knowledge of guitars.
 */
package org.trebleproof.fit;
