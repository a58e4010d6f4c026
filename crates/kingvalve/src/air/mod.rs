//! Moist air and airflow.
