"""gunicorn: two processes of four threads serve some hundred members on a small board."""

bind = "127.0.0.1:8000"
workers = 2
threads = 4
preload_app = True  # a wrong setting then stops the start, with its sentence, instead of each worker in turn
control_socket_disable = True
